//! The wall that the machine pushes against.

use std::f64::consts::FRAC_PI_4;

use ground::Soil;
use project::Run;
use pull::bursting::{
    self, MOBILISATION, Plate, WALL_SAFETY, WALL_SAFETY_WET, WallOpening, WallResistance, WallSoil,
    passive_wedge, reaction_wall_with_opening,
};
use quantity::{Angle, Force, GRAVITY, Length, Pressure, UnitWeight, unit};
use working::{Evidence, Source};

use super::force::above;
use super::{RATIO, kilonewtons};
use crate::assessment::Stage;
use crate::context::Missing;
use crate::item::{About, Item};
use crate::renewal::context::Context;
use crate::renewal::forces::{HIGH, PLANNING, RunForces};

/// Unit weight of fresh water, N/m³; 1000 kg/m³ times standard gravity.
const WATER_WEIGHT: f64 = 1000.0 * GRAVITY;

/// Share of what the wall may bear from which a force inside its wedge asks for attention.
// Judgement: how the wall fades as the head arrives was not read anywhere.
const FADED: f64 = 0.5;

/// Resistance of the wall at the machine pit of a run.
struct Wall {
    soil: WallSoil,
    depth: Length,
    opening: Length,
    /// Depths of the part of the plate that balances about the axis of the pull.
    part: (Length, Length),
    /// How far below the axis the whole plate's resultant lies.
    off: Length,
    /// Groundwater above the plate's lower edge.
    water: Option<Length>,
    resistance: WallResistance,
}

fn strength(soil: &Soil) -> (Angle, Pressure) {
    match soil.undrained_strength {
        Some(strength) => (Angle::ZERO, strength),
        None => (soil.friction_angle.unwrap_or(Angle::ZERO), soil.cohesion),
    }
}

/// Unit weight that the plate feels: the mean over the depth of its lower edge, submerged below the water.
///
/// γ_m = (γ·z_w + (γ_sat − γ_w)·(H₂ − z_w))/H₂. The true vertical stress lies above this straight line everywhere
/// between ground and H₂, so that the resistance is not overrated. Undrained ground resists with its total weight.
fn weight(c: &Context<'_>, run: &Run, soil: &Soil, bottom: Length) -> (UnitWeight, Option<Length>) {
    let street = &c.renewal.street;
    let surface = street.ground.level_extended(run.machine);
    let above = street.groundwater_level.map(|water| (surface - water).max(Length::ZERO));
    let Some(above) = above.filter(|z| *z < bottom) else { return (soil.unit_weight, None) };
    if soil.undrained_strength.is_some() {
        return (soil.unit_weight, Some(above));
    }
    let buoyant = (soil.saturated_unit_weight.si() - WATER_WEIGHT).max(0.0);
    let share = above / bottom;
    let mean = soil.unit_weight.si() * share + buoyant * (1.0 - share);
    (UnitWeight::from_si(mean), Some(above))
}

/// Moment of the passive pressure a·z + b between two depths about the axis of the pull, over the width.
fn moment((a, b): (f64, f64), axis: f64, from: f64, to: f64) -> f64 {
    let whole = |z: f64| a * z.powi(3) / 3.0 + (b - a * axis) * z * z / 2.0 - b * axis * z;
    whole(to) - whole(from)
}

/// The part of a plate whose passive pressure balances about the axis of the pull, and how far below the axis the
/// whole plate's resultant lies.
///
/// A plate that pushes with more on one side than on the other turns: what lies too far out on the stronger side is
/// not counted. From the surface in soil without cohesion the part ends at 1.5 times the depth of the axis, since the
/// resultant of a triangle lies at two thirds of it.
fn balanced(pressure: (f64, f64), axis: f64, top: f64, bottom: f64) -> ((f64, f64), f64) {
    let (a, b) = pressure;
    let force = a * (bottom * bottom - top * top) / 2.0 + b * (bottom - top);
    let turns = moment(pressure, axis, top, bottom);
    let below = turns > 0.0;
    // Between the axis and the far edge the moment changes its sign once.
    let (mut near, mut far) = if below { (axis, bottom) } else { (axis, top) };
    for _ in 0..60 {
        let middle = (near + far) / 2.0;
        let rest = if below {
            moment(pressure, axis, top, middle)
        } else {
            -moment(pressure, axis, middle, bottom)
        };
        if rest > 0.0 { far = middle } else { near = middle }
    }
    let part = if below { (top, near) } else { (near, bottom) };
    (part, turns / force)
}

fn wall(c: &Context<'_>, run: &Run, plate: [Length; 3]) -> Result<Wall, Missing> {
    let ground = c.soil()?;
    let (friction_angle, cohesion) = strength(ground);
    let [width, top, bottom] = plate;
    let (unit_weight, water) = weight(c, run, ground, bottom);
    let soil = WallSoil { unit_weight, friction_angle, cohesion };
    let depth = c.axis_depth(run.machine);
    let opening = c.expander()?;
    let half = opening / 2.0;
    let about = |what: &str, top: Length, bottom: Length| Missing {
        keys: Vec::new(),
        because: format!(
            "{what} from {top} to {bottom} covers the opening of the old main (axis {depth} deep, {} wide) not at all or in part only: the pull needs wall on both sides of its axis",
            super::super::context::mm(opening)
        ),
    };
    let covers = |top: Length, bottom: Length| depth - half >= top && depth + half <= bottom;
    if !covers(top, bottom) || opening > width {
        return Err(about("the plate", top, bottom));
    }
    let ratio = (FRAC_PI_4 + friction_angle.si() / 2.0).tan().powi(2);
    let pressure = (ratio * unit_weight.si(), 2.0 * cohesion.si() * ratio.sqrt());
    let (part, off) = balanced(pressure, depth.si(), top.si(), bottom.si());
    let part = (Length::from_si(part.0), Length::from_si(part.1));
    if !covers(part.0, part.1) {
        return Err(about("what balances about the axis, the plate", part.0, part.1));
    }
    let counted = Plate { width, depth_top: part.0, depth_bottom: part.1, spread: 1.0 };
    let hole = WallOpening { diameter: opening, depth };
    let resistance = reaction_wall_with_opening(&counted, &soil, Some(&hole))?;
    Ok(Wall { soil, depth, opening, part, off: Length::from_si(off), water, resistance })
}

/// Passive resistance of the wall against the force on the machine.
pub(super) fn reaction_wall(c: &Context<'_>) -> Item {
    let r = c.renewal;
    let key = "/factors/wall_safety";
    let about = About::new(
        "burst.reaction-wall",
        "wall of the machine pit against the force on the machine",
        Stage::Pull,
        r.source_of(key),
    );
    let runs = match c.forces() {
        Ok(runs) => runs,
        Err(m) => return about.not_assessed(&[], m.because.clone()).missing(&m.keys),
    };
    let Some(plate) = r.pit.plate else {
        let keys = ["/pit/plate_width", "/pit/plate_top", "/pit/plate_bottom"];
        return about.not_assessed(&keys, "the bearing plate is not given");
    };
    let mut worst: Option<(&RunForces, &Run, Wall, f64)> = None;
    for f in runs {
        let Some(run) = r.runs.get(f.run) else { continue };
        let wall = match wall(c, run, plate) {
            Ok(wall) => wall,
            Err(m) => return about.not_assessed(&[], m.because).missing(&m.keys),
        };
        let used = f.rig[PLANNING] / wall.resistance.net.max(Force::from_si(1e-3));
        if worst.as_ref().is_none_or(|(.., least)| used > *least) {
            worst = Some((f, run, wall, used));
        }
    }
    let Some((f, run, wall, _)) = worst else {
        return about.not_assessed(&["/run"], "no run is given");
    };
    let limit = wall.resistance.net / r.factors.wall_safety;
    let wedge = passive_wedge(wall.part.1, wall.soil.friction_angle).unwrap_or(Length::ZERO);
    let safe = wall.resistance.net / WALL_SAFETY;
    let cap = limit.min(safe);
    let strong = r.machine.pullback.filter(|p| *p > safe);
    let near = f
        .places
        .iter()
        .filter(|p| (p.at - run.machine).abs() < wedge)
        .map(|p| p.rig[PLANNING])
        .fold(Force::ZERO, Force::max);
    let close = near > limit * FADED;
    // Another run may reach higher than the one that uses most of its wall for planning.
    let highest = runs
        .iter()
        .filter(|other| other.run != f.run && other.rig[HIGH] > limit.max(f.rig[HIGH]))
        .find_map(|other| Some((r.runs.get(other.run)?, other.rig[HIGH])));
    let eccentric = wall.off.abs() > (plate[2] - plate[1]) / 6.0;
    let dry = wall.water.is_some() && r.factors.wall_safety < WALL_SAFETY_WET;
    let mut watch = Vec::new();
    if let Some(p) = strong {
        watch.push(format!("the machine can pull {p} where it stalls, more than the wall bears with safety {WALL_SAFETY}: set its relief to {cap} at most"));
    }
    if close {
        watch.push(format!("{near} act with the head in the last {wedge} before the plate, inside the wedge that resists, where the wall fades as the head arrives: cap the force there and watch the plate, or draw the head in from a second set-up"));
    }
    if eccentric {
        let (by, side) = (wall.off.abs(), if wall.off.si() > 0.0 { "below" } else { "above" });
        watch.push(format!("the resultant of the whole plate lies {by} {side} the axis, more than a sixth of its height: only {} to {} are counted", wall.part.0, wall.part.1));
    }
    if let Some(z) = wall.water {
        watch.push(format!(
            "groundwater stands {z} below ground, above the plate's lower edge{}",
            if dry { format!(": safety {WALL_SAFETY_WET} is usual there") } else { String::new() }
        ));
    }
    if let Some((other, high)) = highest {
        watch.push(format!("run {} reaches {high} at the high end", other.name));
    }
    let watched: String = watch.iter().map(|w| format!("; {w}")).collect();
    let because = format!(
        "run {}: the part of the plate that balances about the axis, {} to {} deep, bears {} in full{}, less {} where the old main comes through{watched}; on the machine act {} for planning, band {} to {}{}",
        run.name,
        wall.part.0,
        wall.part.1,
        wall.resistance.full,
        if wall.soil.friction_angle.si() == 0.0 { " (undrained)" } else { "" },
        wall.resistance.opening,
        f.rig[PLANNING],
        f.rig[0],
        f.rig[HIGH],
        above(f.rig[HIGH], limit)
    );
    about
        .at_most(kilonewtons(f.rig[PLANNING]), kilonewtons(limit), r.factors.attention, because)
        .at(run.machine)
        .attend(f.rig[HIGH] > limit || strong.is_some() || close || eccentric || dry || highest.is_some())
        .worked(c.working(|w| {
            let source = bursting::REACTION_WALL.source();
            let index = r.fill.soil;
            let of = |key: &str| r.source_of(&format!("/ground/soil/{index}/{key}"));
            w.found("F", "force on the machine, planning", "see burst.force.rig", f.rig[PLANNING].si(), unit::KN, source.clone());
            w.given("B", "width of the plate", plate[0].si(), unit::M);
            w.found("H_1", "upper edge of the part that balances about the axis", "plate, cut where its moment about the axis is zero", wall.part.0.si(), unit::M, Source::new("statics", Evidence::Derived));
            w.found("H_2", "lower edge of that part", "plate, cut where its moment about the axis is zero", wall.part.1.si(), unit::M, Source::new("statics", Evidence::Derived));
            if wall.water.is_some() && wall.soil.friction_angle.si() > 0.0 {
                w.found("gamma", "unit weight of the ground, submerged below the water", "mean down to the plate's lower edge", wall.soil.unit_weight.si(), unit::KN_PER_M3, Source::new("submerged weight", Evidence::Derived));
            } else {
                w.given_from("gamma", "unit weight of the ground", wall.soil.unit_weight.si(), unit::KN_PER_M3, of("unit_weight"));
            }
            w.given_from("phi", "friction angle; 0 where it is undrained", wall.soil.friction_angle.si(), unit::DEG, of("friction_angle"));
            w.given_from("c", "cohesion, or undrained strength", wall.soil.cohesion.si(), unit::KPA, of("cohesion"));
            w.derive("K_p", "coefficient of passive pressure", "tan(pi/4 + phi/2)^2", unit::ONE, source.clone());
            w.result("R_full", "resistance of the whole plate", "B*(0.5*K_p*gamma*(H_2^2 - H_1^2) + 2*c*sqrt(K_p)*(H_2 - H_1))", wall.resistance.full.si(), unit::KN, source.clone());
            w.given("d_o", "opening, the expander's diameter", wall.opening.si(), unit::MM);
            w.found("h_o", "depth of its middle", "axis of the old main at the pit", wall.depth.si(), unit::M, source.clone());
            w.result("R_o", "what the opening takes away", "pi/4*d_o^2*(K_p*gamma*h_o + 2*c*sqrt(K_p))", wall.resistance.opening.si(), unit::KN, source.clone());
            w.given_from("S", "safety", r.factors.wall_safety, unit::ONE, r.source_of(key));
            w.derive("U", "utilisation", "F/((R_full - R_o)/S)", unit::ONE, RATIO);
        }))
        .note(format!("The plate bears on the wall from which the old main comes. The wall gives way as it resists: {MOBILISATION}. Sheeting, thrust block and the ground behind the trench are for the designer of the pit; the ground is taken as the fill."))
        .note("Below the water the ground resists with its submerged weight, taken as a mean down to the lower edge, which is on the safe side; the safety then usual is 2 (from memory).")
}
