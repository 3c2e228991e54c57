//! Forces of every run as a band: low, planning, high.

use project::{Assembly, Feature, HostBend, Renewal, Run, Stretch, Yields};
use pull::bursting::{
    self, BurstFactors, BurstParts, GuideDrag, SiloDrag, SiloGround, SocketedString, Splitting,
    StringWeight, burst_pull,
};
use pull::published::PublishedError;
use quantity::{Angle, Force, ForcePerLength, GRAVITY, Length, Pressure, unit};

use super::context::Context;
use crate::assessment::{ForcePart, Reading};
use crate::context::Missing;

/// Length of a socket that bears on the ground, m; remembered range 0.10 to 0.25.
pub(super) const SOCKET_LENGTH: Length = Length::from_si(0.15);
/// Length of the cut that one blade keeps open, m.
// Judgement: the sample value of the formula.
pub(super) const CUT_LENGTH: Length = Length::from_si(0.1);

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

/// A turn of the old main at one point: to a side, and up (negative down).
#[derive(Clone, Copy)]
pub(super) struct PointTurn {
    pub at: Length,
    pub aside: Angle,
    pub up: Angle,
}

/// Bends at one point and changes of slope between the pits of a run. What lies in a pit is not there any more: the
/// old main is cut out, and a fitting takes the turn.
pub(super) fn point_turns(c: &Context<'_>, run: &Run) -> Vec<PointTurn> {
    let (from, to) = run.stretch();
    let mut list = all_point_turns(c);
    list.retain(|t| (t.at - from).si() > 1e-9 && (to - t.at).si() > 1e-9);
    list
}

/// Every turn of the old main at one point, in order.
pub(super) fn all_point_turns(c: &Context<'_>) -> Vec<PointTurn> {
    let host = &c.renewal.host;
    let bends = host.bends.iter().filter(|b| b.radius.is_none());
    let mut list: Vec<_> =
        bends.map(|b| PointTurn { at: b.at, aside: b.angle, up: Angle::ZERO }).collect();
    let points: Vec<_> = host.axis.points().collect();
    for three in points.windows(3) {
        let [a, b, d] = three else { continue };
        let slope = |p: &(Length, Length), q: &(Length, Length)| ((q.1 - p.1) / (q.0 - p.0)).atan();
        let up = slope(b, d) - slope(a, b);
        if up != 0.0 {
            list.push(PointTurn { at: b.0, aside: Angle::ZERO, up: Angle::from_si(up) });
        }
    }
    list.sort_by(|a, b| a.at.si().total_cmp(&b.at.si()));
    list
}

/// Curves of the old main that reach into a run between its pits: the bend, its radius, half its length.
pub(super) fn curves(c: &Context<'_>, run: &Run) -> Vec<(HostBend, Length, Length)> {
    let (from, to) = run.stretch();
    let with_radius = c.renewal.host.bends.iter().filter_map(|b| Some((*b, b.radius?)));
    let all = with_radius.map(|(b, radius)| (b, radius, radius * (b.angle.si() / 2.0)));
    all.filter(|(b, _, half)| b.at + *half > from && b.at - *half < to).collect()
}

/// Sum of the turns of the old main in a run.
fn all_turns(c: &Context<'_>, run: &Run) -> Angle {
    let at_points: f64 =
        point_turns(c, run).iter().map(|t| t.aside.si().abs() + t.up.si().abs()).sum();
    let on_curves: f64 = curves(c, run).iter().map(|(b, ..)| b.angle.si()).sum();
    Angle::from_si(at_points + on_curves)
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

/// Friction of the cone, low, planning, high: it spreads as that of the string does.
// Judgement: nobody states a range for the cone. One is the most that a cone's formula takes.
pub(super) fn cone_frictions(r: &Renewal) -> [f64; 3] {
    let planning = r.factors.friction[PLANNING];
    let of = |friction: f64| if planning > 0.0 { friction / planning } else { 1.0 };
    r.factors.friction.map(|friction| (r.burst.cone_friction * of(friction)).min(1.0))
}

/// Whether the head meets something at a chainage that its blades must cut: what lies in a pit is taken out there.
fn spiked(c: &Context<'_>, run: &Run, at: Length) -> bool {
    let same = |a: Length, b: Length| (a - b).abs().si() < 1e-9;
    let cut = |f: &&Feature| match (f.kind, f.action) {
        (_, Some("dig out" | "reroute")) => false,
        ("repair clamp" | "coupling", _) | (_, Some("cutter")) => true,
        _ => false,
    };
    let in_pit = same(at, run.launch) || same(at, run.machine);
    !in_pit && c.renewal.host.features.iter().filter(cut).any(|f| same(f.at, at))
}

/// Force where something is cut over that in plain pipe: low, planning, high.
// Judgement: the source gives the ends of the range for split pipe, and takes the spikes for rare; planning takes the
// lower end, and pipe that breaks the same factors.
pub(super) fn spike_factors() -> [f64; 3] {
    let factors = &bursting::COUPLING_FACTORS;
    [1.0, factors.low_si(), factors.high_si().unwrap_or(factors.low_si())]
}

/// Ends of the splitting force over its planning value, for given metal.
// Judgement: the formula was fitted to plates and is good to the order of magnitude only.
const SPLITTING_SPREAD: (f64, f64) = (0.5, 2.0);

/// Whether the expander is larger than the bore: only then does it touch the old main.
pub(super) fn touches(c: &Context<'_>, stretch: &Stretch) -> Result<bool, Missing> {
    Ok(c.expander()? > stretch.inside_diameter)
}

/// Breaking or splitting a stretch: low, planning, high.
///
/// The ends of the strength and those of the model (length in contact, or [`SPLITTING_SPREAD`]) and of a spike are
/// combined as `exp √(Σ ln² rᵢ)` of their ratios rᵢ to planning.
// Judgement: the ratios have nothing to do with one another; all of them at one end would be a band that nobody uses.
pub(super) fn breaking(c: &Context<'_>, stretch: &Stretch, spike: bool) -> Result<Band, Missing> {
    let burst = &c.renewal.burst;
    if stretch.material.yields() == Yields::Not {
        let because = format!("{} cannot be burst: see host.material", stretch.material.word());
        return Err(Missing { keys: Vec::new(), because });
    }
    if !touches(c, stretch)? {
        return Ok([Force::ZERO; 3]);
    }
    let [low, strength, high] = stretch.strength;
    let split = stretch.material.yields() == Yields::Split;
    let plain = if split {
        bursting::splitting_force(&Splitting {
            wall: stretch.wall,
            flow_stress: strength,
            cut_length: CUT_LENGTH,
            friction: burst.cone_friction,
            tear: bursting::SPLITTING_TEAR,
            cutters: f64::from(burst.cutters),
        })?
    } else {
        bursting::breaking_force(
            stretch.wall,
            strength,
            bursting::CONTACT_LENGTH,
            burst.cone_half_angle,
            burst.cone_friction,
        )?
    };
    let (least, most) = if split {
        SPLITTING_SPREAD
    } else {
        let lengths = &bursting::CONTACT_LENGTHS;
        let usual = bursting::CONTACT_LENGTH.si();
        (lengths.low_si() / usual, lengths.high_si().unwrap_or(usual) / usual)
    };
    let [_, planned, worst] = if spike { spike_factors() } else { [1.0; 3] };
    let together =
        |ratios: [f64; 3]| ratios.map(|r| r.ln().powi(2)).iter().sum::<f64>().sqrt().exp();
    let planning = plain * planned;
    Ok([
        plain / together([low / strength, least, 1.0]),
        planning,
        planning * together([high / strength, most, worst / planned]),
    ])
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
