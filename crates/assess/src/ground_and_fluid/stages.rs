use fluid::{OutletPath, clinging_laminar, returns_density, surge_velocity};
use project::{Drilling, Outlet, Project};
use quantity::{Density, Flow, Length, UnitWeight, Velocity};
use std::f64::consts::FRAC_PI_4;

use super::rheology::{Annulus, Law, Losses, losses};
use super::{SoilShares, usual_ratio};
use crate::assessment::Stage;
use crate::context::Missing;

/// Length of a socket with its protection, in which the annulus is narrower, m.
// Judgement: sockets of restrained joints are 0.2 to 0.35 m long, sleeve and cone add to it.
pub(crate) const SOCKET_LENGTH: f64 = 0.5;

/// One stage of drilling with its diameters, flow and fluid.
#[derive(Clone)]
pub(crate) struct StageSetup {
    /// As in the id of its check: `pilot`, `ream-2`, `pull`.
    pub id: String,
    /// In words.
    pub name: String,
    /// Diameter of the bore that the pressure acts on.
    pub hole: Length,
    pub flow: Flow,
    /// Place of the flow in the crossing file.
    pub flow_key: &'static str,
    /// Density of the fluid with cuttings, and whether it follows from the mass balance.
    pub density: Density,
    pub balance: Option<f64>,
    /// Ways to the pits; at least one.
    pub ways: Vec<Way>,
}

/// The way of the fluid to one pit.
#[derive(Clone)]
pub(crate) struct Way {
    /// In words.
    pub pit: &'static str,
    /// Whether its length is counted from the entry point.
    pub from_entry: bool,
    pub hole: Length,
    pub string: Length,
    /// Flow along the annulus, with what the string pushes out and drags along.
    pub flow: Flow,
    pub losses: Losses,
    /// Losses at the sockets of the string, where they differ.
    pub socket: Option<(Length, Losses)>,
    pub path: OutletPath,
}

/// A stage, or why it cannot be computed.
pub(crate) type MaybeStage = (String, String, Stage, Result<StageSetup, Missing>);

/// All stages in the order of the work.
pub(crate) fn stages(
    project: &Project,
    laws: Result<&[Law], &Missing>,
    shares: Option<&SoilShares>,
    ground: &Result<(), Missing>,
) -> Vec<MaybeStage> {
    let bore = &project.bore;
    let count = bore.ream_diameters.len();
    let mut all: Vec<MaybeStage> = Vec::with_capacity(count + 2);
    let maker = Maker { project, laws, shares, ground };
    all.push(("pilot".to_owned(), "pilot bore".to_owned(), Stage::Pilot, maker.pilot()));
    for (i, diameter) in bore.ream_diameters.iter().enumerate() {
        let name = format!(
            "ream pass {} to {}",
            i + 1,
            quantity::show_briefly(diameter.si(), quantity::unit::MM)
        );
        all.push((format!("ream-{}", i + 1), name, Stage::Ream, maker.ream(i, *diameter)));
    }
    all.push(("pull".to_owned(), "pull-in".to_owned(), Stage::Pull, maker.pull()));
    all
}

struct Maker<'a> {
    project: &'a Project,
    laws: Result<&'a [Law], &'a Missing>,
    shares: Option<&'a SoilShares>,
    /// Why the ground is not known, where it is not.
    ground: &'a Result<(), Missing>,
}

impl Maker<'_> {
    fn laws(&self) -> Result<&[Law], Missing> {
        self.laws.map_err(Clone::clone)
    }

    fn rods(&self) -> Result<Length, Missing> {
        self.project
            .bore
            .rods
            .diameter
            .ok_or_else(|| missing("/bore/rods/diameter", "the diameter of the rods is not given"))
    }

    /// Density of the returns by mass balance, with the ratio used.
    fn density(&self, drilling: &Drilling) -> Result<(Density, f64), Missing> {
        self.ground.clone()?;
        let shares = self
            .shares
            .ok_or_else(|| missing("/ground/boring", "the density of the ground is not known"))?;
        let ratio = drilling.fluid_ratio.unwrap_or_else(|| usual_ratio(shares.main).0);
        let fresh = self.project.fluid.fresh_density;
        let density = returns_density(shares.density, fresh, ratio)
            .map_err(|e| Missing { keys: Vec::new(), because: e.to_string() })?;
        Ok((density, ratio))
    }

    fn annulus(&self, hole: Length, string: Length, flow: Flow, density: Density) -> Annulus {
        let eccentricity = self.project.fluid.eccentricity;
        Annulus { hole, string, flow, density, eccentricity }
    }

    fn pit(&self, entry: bool) -> (&'static str, Length) {
        let line = &self.project.line;
        if entry {
            ("entry pit", line.sample(0.0).level)
        } else {
            ("exit pit", line.sample(line.length().si()).level)
        }
    }

    fn way(&self, entry: bool, annulus: &Annulus) -> Result<Way, Missing> {
        let losses = losses(self.laws()?, annulus)?;
        let (pit, level) = self.pit(entry);
        let path = OutletPath { level, density: annulus.density, gradient: losses.gradient() };
        Ok(Way {
            pit,
            from_entry: entry,
            hole: annulus.hole,
            string: annulus.string,
            flow: annulus.flow,
            losses,
            socket: None,
            path,
        })
    }

    fn pilot(&self) -> Result<StageSetup, Missing> {
        let bore = &self.project.bore;
        let hole = bore.pilot_diameter.ok_or_else(|| {
            missing("/bore/pilot_diameter", "the diameter of the pilot bore is not given")
        })?;
        let flow_key = "/bore/pilot/flow";
        let flow = flow_of(&bore.pilot, flow_key)?;
        let rods = self.rods()?;
        self.laws()?;
        let (density, ratio) = self.density(&bore.pilot)?;
        let way = self.way(true, &self.annulus(hole, rods, flow, density))?;
        Ok(StageSetup {
            id: "pilot".to_owned(),
            name: "pilot bore".to_owned(),
            hole,
            flow,
            flow_key,
            density,
            balance: Some(ratio),
            ways: vec![way],
        })
    }

    /// A ream pass from the exit to the entry: the bore behind the reamer is wide, the one ahead as narrow as before.
    fn ream(&self, i: usize, hole: Length) -> Result<StageSetup, Missing> {
        let bore = &self.project.bore;
        let flow_key = "/bore/reaming/flow";
        let drilling = bore
            .reaming
            .get(i)
            .ok_or_else(|| missing(flow_key, "the flow of this pass is not given"))?;
        let flow = flow_of(drilling, flow_key)?;
        let rods = self.rods()?;
        self.laws()?;
        let (density, ratio) = self.density(drilling)?;
        let before = match i.checked_sub(1) {
            Some(last) => bore.ream_diameters.get(last).copied(),
            None => bore.pilot_diameter,
        };
        let mut ways = Vec::new();
        if drilling.outlet != Outlet::Exit {
            let before = before.ok_or_else(|| {
                missing("/bore/pilot_diameter", "the diameter of the pilot bore is not given")
            })?;
            ways.push(self.way(true, &self.annulus(before, rods, flow, density))?);
        }
        if drilling.outlet != Outlet::Entry {
            ways.push(self.way(false, &self.annulus(hole, rods, flow, density))?);
        }
        Ok(StageSetup {
            id: format!("ream-{}", i + 1),
            name: format!("ream pass {}", i + 1),
            hole,
            flow,
            flow_key,
            density,
            balance: Some(ratio),
            ways,
        })
    }

    fn pull(&self) -> Result<StageSetup, Missing> {
        let p = self.project;
        let flow_key = "/bore/pulling/flow";
        let flow = flow_of(&p.bore.pulling, flow_key)?;
        let rods = self.rods()?;
        self.laws()?;
        let (hole, density) = (p.bore.final_diameter, p.fluid.density);
        let barrel = p.string.pipe.barrel_diameter();
        if barrel >= hole {
            let because = "the barrel of the string does not pass the bore".to_owned();
            return Err(Missing { keys: Vec::new(), because });
        }
        let displaced = FRAC_PI_4 * barrel.si().powi(2) * p.bore.pulling_speed.si();
        let outlet = p.bore.pulling.outlet;
        let mut ways = Vec::new();
        if outlet != Outlet::Exit {
            let pushed = Flow::from_si(flow.si() + displaced);
            ways.push(self.way(true, &self.annulus(hole, rods, pushed, density))?);
        }
        if outlet != Outlet::Entry {
            ways.push(self.along_the_string(hole, barrel, flow, density)?);
        }
        Ok(StageSetup {
            id: "pull".to_owned(),
            name: "pull-in".to_owned(),
            hole,
            flow,
            flow_key,
            density,
            balance: None,
            ways,
        })
    }

    /// Along the string back to the exit pit, against its motion; narrower at the sockets.
    fn along_the_string(
        &self,
        hole: Length,
        barrel: Length,
        flow: Flow,
        density: Density,
    ) -> Result<Way, Missing> {
        let p = self.project;
        let speed = p.bore.pulling_speed;
        let with = |string: Length| {
            let flow = moving(hole, string, flow, speed)?;
            Ok::<_, Missing>(self.annulus(hole, string, flow, density))
        };
        let mut way = self.way(false, &with(barrel)?)?;
        let largest = p.string.pipe.largest_diameter().filter(|d| *d > barrel && *d < hole);
        if let Some(socket) = largest {
            let at_socket = losses(self.laws()?, &with(socket)?)?;
            let share = (SOCKET_LENGTH / p.string.pipe.laying_length().si()).min(1.0);
            let mean =
                (1.0 - share) * way.losses.gradient().si() + share * at_socket.gradient().si();
            way.path.gradient = UnitWeight::from_si(mean);
            way.socket = Some((socket, at_socket));
        }
        Ok(way)
    }
}

/// Flow that stands for the fluid beside a moving string: pumped, pushed out and dragged along.
fn moving(hole: Length, string: Length, flow: Flow, speed: Velocity) -> Result<Flow, Missing> {
    let refused = |e: fluid::FluidError| Missing { keys: Vec::new(), because: e.to_string() };
    let clinging = clinging_laminar(string / hole).map_err(refused)?;
    let surge = surge_velocity(hole, string, speed, clinging).map_err(refused)?;
    let area = FRAC_PI_4 * (hole.si().powi(2) - string.si().powi(2));
    Ok(Flow::from_si(flow.si() + surge.si() * area))
}

fn flow_of(drilling: &Drilling, key: &str) -> Result<Flow, Missing> {
    drilling.flow.ok_or_else(|| Missing {
        keys: vec![key.to_owned(), "/rig/pump/capacity".to_owned()],
        because: "neither the flow of this stage nor the capacity of the pump is given".to_owned(),
    })
}

fn missing(key: &str, because: &str) -> Missing {
    Missing { keys: vec![key.to_owned()], because: because.to_owned() }
}
