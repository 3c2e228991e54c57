//! Forces of every run as a band: low, planning, high.

use project::{Assembly, Renewal, Run, Stretch, Yields};
use pull::bursting::{
    self, BurstFactors, BurstParts, GuideDrag, SiloDrag, SiloGround, SocketedString, StringWeight,
    burst_pull,
};
use pull::published::PublishedError;
use quantity::{Angle, Force, ForcePerLength, GRAVITY, Length, Pressure, unit};

pub(super) use self::breaking::{CUT_LENGTH, SPLITTING_SPREAD, spike_factors, touches};
use self::breaking::{breaking, cone_frictions, spiked};
use self::turns::all_turns;
pub(super) use self::turns::{PointTurn, all_point_turns, curves, point_turns};
use super::context::Context;
use crate::assessment::{ForcePart, Reading};
use crate::context::Missing;

mod breaking;
mod turns;

/// Length of a socket that bears on the ground, m; remembered range 0.10 to 0.25.
pub(super) const SOCKET_LENGTH: Length = Length::from_si(0.15);

/// Low, planning and high end.
pub(super) type Band = [Force; 3];
/// Which of the band the checks judge.
pub(super) const PLANNING: usize = 1;
/// The high end.
pub(super) const HIGH: usize = 2;

/// Forces of one run.
pub(super) struct RunForces {
    /// Index of the run.
    pub run: usize,
    /// Ground above the barrel, mean over the run.
    pub cover: Length,
    /// Rise over the run in the direction of the pull.
    pub slope: Angle,
    /// Sum of the turns of the old main.
    pub turn: Angle,
    /// Drag of the ground on the whole string by each model.
    pub drag: Drag,
    /// Drag that the band takes.
    pub band: Band,
    /// Own weight of the whole string with the friction of each end of the band.
    pub weight: [StringWeight; 3],
    /// Factor at a restart of each end of the band.
    pub restart: [f64; 3],
    /// The place at which the machine pulls hardest for planning.
    pub worst: PlaceForces,
    /// Every place, from the launch to the machine pit.
    pub places: Vec<PlaceForces>,
    /// Greatest force in the string, at the end of the run.
    pub string: Band,
    /// Greatest force on the machine over all places.
    pub rig: Band,
}

/// Drag of the ground on the whole string by each model.
pub(super) struct Drag {
    /// Contact at the sockets only.
    pub sockets: Force,
    /// Sockets, and barrels over the collapsed share.
    pub partly: Force,
    /// Planning guide.
    pub guide: GuideDrag,
    /// Silo over the whole barrel.
    pub silo: SiloDrag,
    /// Prism over the whole barrel.
    pub prism: Force,
}

/// Forces with the head at a place.
#[derive(Clone, Copy)]
pub(super) struct PlaceForces {
    pub at: Length,
    pub cover: Length,
    /// Whether a clamp, a coupling or another thing that blades cut is met here.
    pub spike: bool,
    pub breaking: Band,
    pub cavity: Pressure,
    pub cap: Pressure,
    pub cone: Band,
    pub rods: Force,
    pub string: Band,
    pub rig: Band,
}

impl From<PublishedError> for Missing {
    fn from(error: PublishedError) -> Self {
        Self { keys: Vec::new(), because: error.to_string() }
    }
}

/// Forces of every run.
pub(super) fn all(c: &Context<'_>) -> Result<Vec<RunForces>, Missing> {
    c.renewal.runs.iter().enumerate().map(|(i, run)| of_run(c, i, run)).collect()
}

fn of_run(c: &Context<'_>, index: usize, run: &Run) -> Result<RunForces, Missing> {
    let r = c.renewal;
    let places = c.places(run);
    let cover = c.mean(run, |x| c.cover(x));
    if cover.si() <= 0.0 {
        let because = format!("the new main would lie above the ground in run {}", run.name);
        return Err(Missing { keys: Vec::new(), because });
    }
    let axis = &r.host.axis;
    let rise = axis.level_extended(run.machine) - axis.level_extended(run.launch);
    let slope = Angle::from_si((rise / run.length()).atan());
    let turn = all_turns(c, run);
    let (drag, band) = drag(c, cover, run.length())?;
    let air = r.string.pipe.weight_in_air();
    let of_friction = |mu: f64| bursting::string_weight(air, run.length(), slope, mu);
    let [low, middle, high] = r.factors.friction;
    let weight = [of_friction(low)?, of_friction(middle)?, of_friction(high)?];
    let restart = restart(r);
    let string_curve = [0, 1, 2].map(|k| bursting::curve_factor(turn, r.factors.friction[k]));
    let [a, b, d] = string_curve;
    let curve = [a?, b?, d?];
    let whole = Whole { drag: band, weight, restart, curve };
    let list =
        places.iter().map(|x| at_place(c, run, *x, &whole)).collect::<Result<Vec<_>, Missing>>()?;
    let over = |of: fn(&PlaceForces) -> Band, k: usize| {
        list.iter().map(|p| of(p)[k]).fold(Force::ZERO, Force::max)
    };
    let worst = list
        .iter()
        .copied()
        .reduce(|a, b| if b.rig[PLANNING] > a.rig[PLANNING] { b } else { a })
        .ok_or_else(|| Missing { keys: Vec::new(), because: "the run has no length".to_owned() })?;
    let string = [0, 1, 2].map(|k| over(|p| p.string, k));
    let rig = [0, 1, 2].map(|k| over(|p| p.rig, k));
    Ok(RunForces {
        run: index,
        cover,
        slope,
        turn,
        drag,
        band,
        weight,
        restart,
        worst,
        places: list,
        string,
        rig,
    })
}

/// Factors at a restart: a string that lies ready starts once, and is stopped by trouble at the high end only.
fn restart(r: &Renewal) -> [f64; 3] {
    let usual = &bursting::RESTART_FACTORS;
    let (least, again) = (usual.low_si(), r.factors.restart);
    let most = usual.high_si().unwrap_or(least).max(again);
    match r.string.assembly {
        Assembly::String => [1.0, 1.0, most],
        Assembly::SubStrings(_) | Assembly::PipeByPipe => [least.min(again), again, most],
    }
}

/// Forces on the whole string.
struct Whole {
    drag: Band,
    weight: [StringWeight; 3],
    restart: [f64; 3],
    curve: [f64; 3],
}

fn drag(c: &Context<'_>, cover: Length, length: Length) -> Result<(Drag, Band), Missing> {
    let r = c.renewal;
    let soil = c.soil()?;
    let pipe = &r.string.pipe;
    let barrel = pipe.barrel_diameter();
    let socket = pipe.largest_diameter().ok_or_else(|| {
        super::context::missing("/string/socket_diameter", "the socket is not known")
    })?;
    let string = SocketedString {
        barrel_diameter: barrel,
        socket_diameter: socket,
        socket_length: SOCKET_LENGTH,
        laying_length: pipe.laying_length(),
    };
    let [low, middle, high] = r.factors.friction;
    let gamma = soil.unit_weight;
    let prism_stress = bursting::prism_stress(gamma, cover, Pressure::ZERO)?;
    let mean = bursting::mean_radial_stress(prism_stress, r.factors.stress_ratio)?;
    let friction_angle = soil.friction_angle.unwrap_or(Angle::ZERO);
    let silo_ground = SiloGround {
        unit_weight: gamma,
        cover,
        friction_angle,
        wall_friction_angle: friction_angle,
        stress_ratio: r.factors.stress_ratio,
        // Cohesion would let the hole stand: at the high end it has gone.
        cohesion: Pressure::ZERO,
        surcharge: Pressure::ZERO,
    };
    let share = r.factors.collapsed_share;
    let drag = Drag {
        sockets: bursting::drag_sockets(&string, mean, length, 0.0, low)?.force,
        partly: bursting::drag_sockets(&string, mean, length, share, middle)?.force,
        guide: bursting::drag_guide(gamma, cover, barrel, length, middle)?,
        silo: bursting::drag_silo(&silo_ground, c.expander()?, barrel, length, high)?,
        prism: bursting::drag_prism(gamma, cover, barrel, length, middle)?,
    };
    let planning = drag.partly.max(drag.guide.force);
    let band = [drag.sockets, planning, drag.silo.force.max(planning)];
    Ok((drag, band))
}

fn at_place(c: &Context<'_>, run: &Run, at: Length, whole: &Whole) -> Result<PlaceForces, Missing> {
    let r = c.renewal;
    let stretch = c.stretch_in(run, at).ok_or_else(|| Missing {
        keys: vec!["/host/stretch".to_owned()],
        because: format!("no stretch of the old main is described at {at}"),
    })?;
    let cover = c.cover(at);
    if cover.si() <= 0.0 {
        let because = format!(
            "the crown of the new main would lie at or above the ground at chainage {at}: see burst.heave"
        );
        return Err(Missing { keys: Vec::new(), because });
    }
    let spike = spiked(c, run, at);
    let breaking = breaking(c, stretch, spike)?;
    let (cavity, cap) = expansion(c, stretch, cover)?;
    let pressure = bursting::expansion_pressure(cavity, cap)?.pressure;
    let expander = c.expander()?.max(stretch.inside_diameter);
    let [low, middle, high] = cone_frictions(r).map(|mu| {
        let (host, angle) = (stretch.inside_diameter, r.burst.cone_half_angle);
        bursting::cone_force(host, expander, angle, mu, pressure)
    });
    let cone = [low?, middle?, high?];
    let done = (at - run.launch).abs() / run.length();
    let ahead = (run.machine - at).abs();
    let rod_weight = ForcePerLength::from_si(r.machine.rod_mass.map_or(0.0, |m| m.si()) * GRAVITY);
    let rods = Force::from_si(r.factors.friction[PLANNING] * rod_weight.si() * ahead.si());
    let pulls = [0, 1, 2].map(|k| {
        let weight = StringWeight {
            friction: whole.weight[k].friction * done,
            along: whole.weight[k].along * done,
        };
        let parts = BurstParts {
            breaking: breaking[k],
            cone: cone[k],
            drag: whole.drag[k] * done,
            weight,
            rods,
        };
        let factors = BurstFactors {
            restart: whole.restart[k],
            string_curve: whole.curve[k],
            rod_curve: 1.0,
        };
        burst_pull(&parts, &factors)
    });
    let [low, middle, high] = pulls;
    let (low, middle, high) = (low?, middle?, high?);
    Ok(PlaceForces {
        at,
        cover,
        spike,
        breaking,
        cavity,
        cap,
        cone,
        rods,
        string: [low.string, middle.string, high.string],
        rig: [low.rig, middle.rig, high.rig],
    })
}

/// Pressure to open the ground around a stretch: deep cavity, and lifting of the cover.
pub(super) fn expansion(
    c: &Context<'_>,
    stretch: &Stretch,
    cover: Length,
) -> Result<(Pressure, Pressure), Missing> {
    let r = c.renewal;
    let soil = c.soil()?;
    let expander = c.expander()?.max(stretch.inside_diameter);
    let (before, after) = (stretch.inside_diameter / 2.0, expander / 2.0);
    let vertical = bursting::prism_stress(soil.unit_weight, cover, Pressure::ZERO)?;
    let initial = bursting::mean_radial_stress(vertical, r.factors.stress_ratio)?;
    let modulus = soil.shear_modulus.unwrap_or(Pressure::ZERO);
    let cavity = match (soil.undrained_strength, soil.friction_angle) {
        (Some(strength), _) => bursting::cavity_clay(initial, strength, modulus, before, after)?,
        (None, Some(_)) if initial.si() <= 0.0 => Pressure::ZERO,
        (None, Some(phi)) => bursting::cavity_sand(initial, phi, modulus, before, after)?,
        (None, None) => Pressure::ZERO,
    };
    let uplift = uplift(c);
    let cap = bursting::shallow_cap(soil.unit_weight, cover, expander, uplift)?;
    Ok((cavity, cap))
}

/// Uplift factor of the cover by the density of the fill.
pub(super) fn uplift(c: &Context<'_>) -> f64 {
    if c.renewal.fill.dense { bursting::UPLIFT_DENSE } else { bursting::UPLIFT_LOOSE }
}

/// The parts of the worst run, for the reader.
pub(super) fn table(c: &Context<'_>) -> Vec<ForcePart> {
    let Ok(runs) = c.forces() else { return Vec::new() };
    let Some(f) = worst_run(runs) else { return Vec::new() };
    let kn = |v: Force| Reading::new(v.si(), unit::KN);
    let w = &f.worst;
    let part = |name: &str, band: Band, source: working::Source, remark: &str| ForcePart {
        name: name.to_owned(),
        low: kn(band[0]),
        planning: kn(band[1]),
        high: kn(band[2]),
        source,
        remark: remark.to_owned(),
    };
    let weight = [0, 1, 2].map(|k| f.weight[k].friction + f.weight[k].along.max(Force::ZERO));
    let stretch = c.renewal.runs.get(f.run).and_then(|run| c.stretch_in(run, w.at));
    let breaking = match stretch.map(|s| s.material.yields()) {
        Some(Yields::Split) => bursting::SPLITTING.source(),
        _ => bursting::BREAKING.source(),
    };
    let soil = c.soil().ok();
    let cavity = if soil.is_some_and(|s| s.undrained_strength.is_some()) {
        bursting::CAVITY_CLAY
    } else {
        bursting::CAVITY_SAND
    };
    let cap = if w.cap < w.cavity {
        "the cover lifts before a deep cavity would open: heave governs, not force"
    } else {
        "a deep cavity opens before the cover lifts"
    };
    vec![
        part(
            "breaking or splitting the host",
            w.breaking,
            breaking,
            &format!(
                "with the head at {}; ends of the strength and of the length in contact (split pipe: half and twice) together as a root of squares; figures of broken and of split pipe do not compare{}",
                w.at,
                if w.spike { "; a clamp or coupling is cut there" } else { "" }
            ),
        ),
        part("cone against the ground", w.cone, cavity.source(), cap),
        part(
            "drag of the ground on the string",
            f.band,
            bursting::DRAG_SOCKETS.source(),
            "low: sockets only; planning: partly collapsed hole or the planning guide, the larger; high: silo on the whole barrel",
        ),
        part(
            "drag of a prism on the whole barrel",
            [f.drag.prism; 3],
            bursting::DRAG_PRISM.source(),
            "planning friction, moving: hard to reconcile with published pulls; beside the band, not in it",
        ),
        part("weight of the string", weight, bursting::BURST_PULL.source(), ""),
        part(
            "in the string",
            f.string,
            bursting::BURST_PULL.source(),
            "drag, weight, curves and restart: what joints and pulling head carry",
        ),
        part(
            "on the machine and its wall",
            f.rig,
            bursting::BURST_PULL.source(),
            "all of it, where it is greatest",
        ),
    ]
}

/// The run with the greatest force on the machine for planning.
pub(super) fn worst_run(runs: &[RunForces]) -> Option<&RunForces> {
    runs.iter().reduce(|a, b| if b.rig[PLANNING] > a.rig[PLANNING] { b } else { a })
}
