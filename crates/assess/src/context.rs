//! What several checks share: the pull computed once for the values of the checks, the expected values and a restart.

use std::sync::OnceLock;

use pipe::WATER_DENSITY;
use project::{Assembly, Project};
use pull::chain::{
    ChainError, ChainSetup, Extreme, HeadPosition, Joints, Outside, Pull, RodPath, RodString,
    Setup, pull_through_rods, state_at,
};
use quantity::{Density, Force, ForcePerLength, GRAVITY, Length, Pressure};
use working::{Builder, Source, Working};

use crate::assessment::{JointRow, Method};
use crate::ground_and_fluid::{BorePlace, FluidRun, StageSetup, limit_rules, usual_ratio};
use crate::methods;

/// Density of the steel of drill rods; common practice, no source.
pub(crate) const ROD_STEEL: Density = Density::from_si(7850.0);

/// The crossing with everything that more than one check needs.
pub(crate) struct Context<'a> {
    pub project: &'a Project,
    /// Net weight per length in the fluid with the chosen contents; positive sinks.
    pub net_weight: ForcePerLength,
    /// Largest outside diameter that passes the bore, where the socket is known.
    pub largest_diameter: Option<Length>,
    /// Lengths of string joined so far, each with the head position up to which it is pulled.
    pub joined: Vec<(Length, Length)>,
    design: OnceLock<Result<Run, Missing>>,
    expected: OnceLock<Result<Run, Missing>>,
    restart: OnceLock<Result<Run, Missing>>,
    methods: OnceLock<Vec<Method>>,
    fluid: OnceLock<FluidRun<'a>>,
    joint_places: OnceLock<Joints>,
    rod_path: OnceLock<RodPath<'a>>,
    explaining: bool,
}

/// The pull for one set of values.
pub(crate) struct Run {
    pub friction: f64,
    pub fluid_stress: Pressure,
    pub pull: Pull,
    /// Pull at the rig for each head position.
    pub rig: Vec<Force>,
}

/// Why the pull could not be computed.
#[derive(Debug, Clone)]
pub(crate) struct Missing {
    /// Keys of the crossing file that are missing, if that is the reason.
    pub keys: Vec<String>,
    /// In one sentence.
    pub because: String,
}

impl<'a> Context<'a> {
    pub fn new(project: &'a Project, explaining: bool) -> Self {
        let string = &project.string;
        let net_weight = string
            .pipe
            .net_weight(project.fluid.density, string.contents)
            // Ranges of the file rule this out; NaN is refused by the chain and by every check, zero would not be.
            .unwrap_or(ForcePerLength::from_si(f64::NAN));
        Self {
            project,
            net_weight,
            largest_diameter: string.pipe.largest_diameter(),
            joined: joined(project),
            design: OnceLock::new(),
            expected: OnceLock::new(),
            restart: OnceLock::new(),
            methods: OnceLock::new(),
            fluid: OnceLock::new(),
            joint_places: OnceLock::new(),
            rod_path: OnceLock::new(),
            explaining,
        }
    }

    /// Computes what most checks need, the independent parts at the same time.
    ///
    /// Values are the same as when they are computed on demand; texts stay in the units of the reader who asked.
    pub fn prepare(&self) {
        let reader = quantity::reader();
        std::thread::scope(|scope| {
            scope.spawn(|| {
                quantity::for_reader(reader, || {
                    let _ = self.design();
                    let _ = self.restart();
                });
            });
            let _ = self.expected();
            let _ = self.fluid();
        });
    }

    /// The pull with the values of the checks; computed when first asked for.
    pub fn design(&self) -> &Result<Run, Missing> {
        let f = &self.project.factors;
        self.design.get_or_init(|| self.run(f.friction_bore, f.fluid_stress, None))
    }

    /// The pull with the values expected in a well-kept bore; computed when first asked for.
    pub fn expected(&self) -> &Result<Run, Missing> {
        let f = &self.project.factors;
        self.expected
            .get_or_init(|| self.run(f.friction_bore_expected, f.fluid_stress_expected, None))
    }

    /// The start after a stop, with the values of the checks; computed when first asked for.
    pub fn restart(&self) -> &Result<Run, Missing> {
        let f = &self.project.factors;
        self.restart.get_or_init(|| self.run(f.friction_bore, f.fluid_stress, Some(f.restart)))
    }

    /// Every joint with the head at a place, when somebody asked for a working.
    pub fn joints(&self, run: &Run, head: &HeadPosition) -> Vec<JointRow> {
        if !self.explaining {
            return Vec::new();
        }
        let setup = self.setup(run.friction, run.fluid_stress);
        let state = setup.ok().and_then(|s| state_at(&s, head.advance).ok());
        state.map_or_else(Vec::new, |(_, joints)| {
            joints
                .into_iter()
                .map(|j| JointRow {
                    md: j.md.si(),
                    tension: j.tension_ahead.si(),
                    side_force: j.side_force.si(),
                    angle: j.angle.si(),
                    up: j.up.si(),
                    right: j.right.si(),
                    clearance: j.clearance_ahead.si(),
                })
                .collect()
        })
    }

    /// The pull by every method; computed when first asked for.
    pub fn methods(&self) -> &[Method] {
        self.methods.get_or_init(|| methods::all(self))
    }

    /// Fluid and ground along the bore in every stage; computed when first asked for.
    pub fn fluid(&self) -> &FluidRun<'a> {
        self.fluid.get_or_init(|| FluidRun::of(self.project))
    }

    /// Where the fluid ratio of a stage comes from.
    pub fn ratio_source(&self, stage: &str) -> Source {
        let bore = &self.project.bore;
        let (given, key) = match stage.strip_prefix("ream-") {
            Some(_) => {
                (bore.reaming.iter().any(|d| d.fluid_ratio.is_some()), "/bore/reaming/fluid_ratio")
            }
            None => (bore.pilot.fluid_ratio.is_some(), "/bore/pilot/fluid_ratio"),
        };
        match &self.fluid().shares {
            Some(shares) if !given => usual_ratio(shares.main).1,
            _ => self.project.source_of(key),
        }
    }

    /// What a weaker layer near a place bears itself.
    pub fn limit_of_weaker(&self, setup: &StageSetup, at: &BorePlace, layer: usize) -> Pressure {
        let soils = self.project.strata.as_ref().map_or(&[][..], |m| m.soils());
        let rules = limit_rules(self.project);
        let weaker = at.weaker.get(layer).copied().flatten();
        weaker
            .and_then(|w| w.for_limits(soils))
            .and_then(|w| fluid::limit_behind(&w, setup.hole / 2.0, &rules).ok())
            .unwrap_or(Pressure::ZERO)
    }

    /// Whether both pits were computed as outlets of a stage.
    pub fn fluid_outlet_open(&self, setup: &StageSetup) -> bool {
        setup.ways.len() > 1
    }

    /// Whether somebody asked for workings.
    pub fn explaining(&self) -> bool {
        self.explaining
    }

    /// A working, only when somebody asked for it.
    pub fn working(&self, build: impl FnOnce(&mut Builder)) -> Option<Working> {
        self.explaining.then(|| {
            let mut builder = Builder::new();
            build(&mut builder);
            builder.finish()
        })
    }

    /// Setup of the chain with a friction and a fluid stress.
    pub fn setup(&self, friction: f64, fluid_stress: Pressure) -> Result<ChainSetup<'_>, Missing> {
        let string = &self.project.string;
        let Some(socket_diameter) = self.largest_diameter else {
            return Err(Missing {
                keys: vec!["/string/socket_diameter".to_owned()],
                because: "the largest outside diameter of the string is not known".to_owned(),
            });
        };
        let setup = Setup {
            line: &self.project.line,
            bore_diameter: self.project.bore.final_diameter,
            laying_length: string.pipe.laying_length(),
            barrel_diameter: string.pipe.barrel_diameter(),
            socket_diameter,
            net_weight: self.net_weight,
            friction,
            fluid_stress,
            head_link: string.head_link,
            outside: Outside {
                weight: self.weight_outside(),
                friction: string.support_friction,
                slope: string.ramp_slope,
                joined: &self.joined,
            },
        };
        ChainSetup::new(&setup).map_err(Missing::from)
    }

    /// Sets of joint positions that are computed.
    fn phases(&self) -> u32 {
        if self.pipes() <= 200 { 3 } else { 2 }
    }

    fn run(
        &self,
        friction: f64,
        fluid_stress: Pressure,
        restart: Option<f64>,
    ) -> Result<Run, Missing> {
        let mut setup = self.setup(friction, fluid_stress)?;
        let factor = restart.unwrap_or(1.0);
        let mut stress = fluid_stress;
        if restart.is_some() {
            stress = stress.max(self.project.fluid.gel_strength.unwrap_or(Pressure::ZERO));
            setup = setup.restarted(factor, stress);
        }
        // A restart is about forces, for which one set of joint positions is enough.
        let phases = if restart.is_some() { 1 } else { self.phases() };
        let joints = self.joint_places.get_or_init(|| Joints::new(&setup, self.phases()));
        let path = self.rod_path.get_or_init(|| RodPath::new(&self.project.line));
        let pull = pull::chain::pull_on(&setup, joints, phases)?;
        let rods = self.rods(friction * factor, stress);
        let rig = pull
            .heads
            .iter()
            .map(|h| {
                let at_head = h.force + self.project.rig.reamer_force;
                pull_through_rods(path, &rods, h.advance, at_head)
            })
            .collect();
        Ok(Run { friction, fluid_stress, pull, rig })
    }

    fn rods(&self, friction: f64, fluid_stress: Pressure) -> RodString {
        let rods = &self.project.bore.rods;
        let diameter = rods.diameter.unwrap_or(Length::ZERO);
        // Rods are open to the fluid: only their steel displaces it.
        let share = 1.0 - self.project.fluid.density.si() / ROD_STEEL.si();
        let mass = rods.mass_per_length.map_or(0.0, |m| m.si());
        RodString {
            net_weight: ForcePerLength::from_si(mass * GRAVITY * share),
            diameter,
            friction,
            fluid_stress,
        }
    }

    /// Weight per length of the string outside the bore, with what is inside there.
    ///
    /// Ballast water is let in where the string enters the bore, so that the part outside is empty.
    pub fn weight_outside(&self) -> ForcePerLength {
        self.project.string.pipe.weight_in_air()
    }

    /// Fluid density of water inside the pipe.
    pub const fn water_density() -> Density {
        WATER_DENSITY
    }

    /// Number of pipes that the bore and the extra length take.
    pub fn pipes(&self) -> u32 {
        self.project.string.pipes_for(self.project.line.length())
    }
}

/// Lengths of string that lie joined at each head position.
fn joined(project: &Project) -> Vec<(Length, Length)> {
    let a = project.string.pipe.laying_length();
    let bore = project.line.length();
    let needed = project.string.pipes_for(bore);
    let total = a * f64::from(needed);
    match &project.string.assembly {
        Assembly::String => vec![(total, bore)],
        Assembly::SubStrings(counts) => {
            let mut pipes: u32 = 0;
            let mut list: Vec<_> = counts
                .iter()
                .map(|n| {
                    pipes += n;
                    // A string is pulled until its end is one pipe short of the pit, where the next one is joined.
                    let until = a * f64::from(pipes.saturating_sub(1));
                    (a * f64::from(pipes), until.min(bore))
                })
                .collect();
            if let Some(last) = list.last_mut() {
                *last = (last.0.max(total), bore);
            }
            list
        }
        Assembly::PipeByPipe => {
            (1..=needed).map(|n| (a * f64::from(n), (a * f64::from(n)).min(bore))).collect()
        }
    }
}

impl Run {
    /// The head position with the greatest of something.
    pub fn greatest<T: PartialOrd + Copy>(
        &self,
        of: impl Fn(&HeadPosition) -> Extreme<T>,
    ) -> Option<(Extreme<T>, &HeadPosition)> {
        self.pull
            .heads
            .iter()
            .map(|h| (of(h), h))
            .reduce(|best, next| if next.0.value > best.0.value { next } else { best })
    }

    /// Greatest tension in the string over all head positions.
    pub fn tension(&self) -> Option<(Extreme<Force>, &HeadPosition)> {
        self.greatest(|h| h.tension)
    }

    /// Greatest pull at the rig, with the head position.
    pub fn rig_force(&self) -> Option<(Force, &HeadPosition)> {
        self.rig
            .iter()
            .copied()
            .zip(&self.pull.heads)
            .reduce(|best, next| if next.0 > best.0 { next } else { best })
    }

    /// Greatest pull at the head, with the head position.
    pub fn head_force(&self) -> Option<&HeadPosition> {
        self.pull
            .heads
            .iter()
            .reduce(|best, next| if next.force > best.force { next } else { best })
    }

    /// Force that must hold the string back somewhere, zero in an ordinary pull.
    pub fn held_back(&self) -> Force {
        self.pull.heads.iter().map(|h| h.held_back).fold(Force::ZERO, Force::max)
    }
}

impl From<ChainError> for Missing {
    fn from(error: ChainError) -> Self {
        Self { keys: Vec::new(), because: error.to_string() }
    }
}
