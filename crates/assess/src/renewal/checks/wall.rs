//! The wall that the machine pushes against.

use ground::Soil;
use project::Run;
use pull::bursting::{
    self, MOBILISATION, Plate, WallOpening, WallResistance, WallSoil, passive_wedge,
    reaction_wall_with_opening,
};
use quantity::{Angle, Force, Length, Pressure, unit};

use super::force::above;
use super::{RATIO, kilonewtons};
use crate::assessment::Stage;
use crate::context::Missing;
use crate::item::{About, Item};
use crate::renewal::context::Context;
use crate::renewal::forces::{HIGH, PLANNING, RunForces};

/// Resistance of the wall at the machine pit of a run.
struct Wall {
    soil: WallSoil,
    depth: Length,
    opening: Length,
    resistance: WallResistance,
}

fn strength(soil: &Soil) -> (Angle, Pressure) {
    match soil.undrained_strength {
        Some(strength) => (Angle::ZERO, strength),
        None => (soil.friction_angle.unwrap_or(Angle::ZERO), soil.cohesion),
    }
}

fn wall(c: &Context<'_>, run: &Run, plate: [Length; 3]) -> Result<Wall, Missing> {
    let soil = c.soil()?;
    let (friction_angle, cohesion) = strength(soil);
    let [width, depth_top, depth_bottom] = plate;
    let soil = WallSoil { unit_weight: soil.unit_weight, friction_angle, cohesion };
    let plate = Plate { width, depth_top, depth_bottom, spread: 1.0 };
    let depth = c.axis_depth(run.machine);
    let opening = c.expander()?;
    let hole = WallOpening { diameter: opening, depth };
    // An opening that the plate does not cover takes nothing away from it.
    let half = opening / 2.0;
    let covered = depth - half >= depth_top && depth + half <= depth_bottom && opening <= width;
    let apart = depth + half <= depth_top || depth - half >= depth_bottom;
    if !covered && !apart {
        let because = format!(
            "the plate from {depth_top} to {depth_bottom} covers the opening of the old main (axis {depth} deep, {} wide) in part only",
            super::super::context::mm(opening)
        );
        return Err(Missing { keys: Vec::new(), because });
    }
    let resistance = reaction_wall_with_opening(&plate, &soil, covered.then_some(&hole))?;
    Ok(Wall { soil, depth, opening: if covered { opening } else { Length::ZERO }, resistance })
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
    let wedge = passive_wedge(plate[2], wall.soil.friction_angle).unwrap_or(Length::ZERO);
    let whole = r.machine.pullback.filter(|p| *p > limit).map_or(String::new(), |p| {
        format!("; the machine could pull {p}, more than the wall bears with this safety: set its relief")
    });
    let because = format!(
        "run {}: the wall bears {} in full{}, less {} where the old main comes through{whole}; in the last {wedge} before the plate the head is inside the wedge that resists; on the machine act {} for planning, band {} to {}{}",
        run.name,
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
        .attend(f.rig[HIGH] > limit)
        .worked(c.working(|w| {
            let source = bursting::REACTION_WALL.source();
            let index = r.fill.soil;
            let of = |key: &str| r.source_of(&format!("/ground/soil/{index}/{key}"));
            w.found("F", "force on the machine, planning", "see burst.force.rig", f.rig[PLANNING].si(), unit::KN, source.clone());
            w.given("B", "width of the plate", plate[0].si(), unit::M);
            w.given("H_1", "depth of its upper edge", plate[1].si(), unit::M);
            w.given("H_2", "depth of its lower edge", plate[2].si(), unit::M);
            w.given_from("gamma", "unit weight of the ground", wall.soil.unit_weight.si(), unit::KN_PER_M3, of("unit_weight"));
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
        .note("Groundwater above the lower edge lowers the resistance: the safety then asked for is 2 (from memory).")
}
