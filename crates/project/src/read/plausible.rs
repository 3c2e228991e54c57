//! Values that are allowed and seldom meant, seen beside other values of the file.
//!
//! What is unusual by itself stands in the definition of its field.

use std::f64::consts::PI;

use ground::GroundLine;
use quantity::{Force, Length, Pressure, unit};

use crate::context::{Ask, Context};
use crate::given::Given;
use crate::wording::shown;

/// A pull above this many times the published one is most likely a slip of the unit. Judgement.
const PULL_HIGH: f64 = 3.0;
/// A pull below this share of the published one likewise. Judgement.
const PULL_LOW: f64 = 0.2;
/// Difference between the last pass and the final diameter that nobody asks about, m. Judgement.
const SAME_DIAMETER: f64 = 5e-3;
/// Height over the ground line up to which an underside may be a bank or a deck, m. Judgement.
const IN_THE_AIR: f64 = 0.5;
/// Rise or fall of the ground between two points that is seldom steeper than 1:1, m. Judgement.
const HIGH_BANK: f64 = 20.0;
/// How far an outside diameter may lie off that of the table. Judgement.
const OFF_TABLE: f64 = 0.05;
/// Density of steel, kg/m3. Common practice.
const STEEL: f64 = 7850.0;
/// Rods lighter than this share of solid steel have no wall. Judgement.
const ROD_LEAST: f64 = 0.1;
/// A joint's pressure above this many times the usual one of its size. Judgement.
const PRESSURE_HIGH: f64 = 2.0;
/// A pressure above that of every joint, Pa. Judgement.
const PRESSURE_MOST: f64 = 120.0e5;
/// Height between the reference level and the nearer end of the bore, m. Judgement.
const REFERENCE_OFF: f64 = 200.0;

/// Warns of ground that rises or falls like a cliff; `rows` are the points of the ground line.
pub(super) fn slopes(cx: &mut Context<'_>, rows: &[Vec<Given<f64>>]) {
    for pair in rows.windows(2) {
        let [before, after] = pair else { continue };
        let ([x1, z1], [x2, z2]) = (before.as_slice(), after.as_slice()) else { continue };
        let (run, rise) = (x2.value - x1.value, z2.value - z1.value);
        if rise.abs() <= HIGH_BANK || rise.abs() <= run {
            continue;
        }
        let m = |v: f64| shown(v, unit::M);
        let verb = if rise > 0.0 { "rises" } else { "falls" };
        let (by, within) = (m(rise.abs()), m(run));
        let message = format!("the ground line {verb} by {by} within {within}");
        cx.report
            .warning("steep_ground", &z2.place, message)
            .found(m(z2.value))
            .allowed(format!(
                "usually within {} of the point before, or no steeper than 1:1",
                m(HIGH_BANK)
            ))
            .hint("check the decimal point and the unit of this level and of the one before");
    }
}

/// Warns of an outside diameter that is not that of the size.
pub(super) fn outside_diameter(ask: &mut Ask<'_, '_, '_>, table: Length) {
    let Some(given) = ask.number("outside_diameter") else { return };
    if (given.value / table.si() - 1.0).abs() <= OFF_TABLE {
        return;
    }
    let (found, usual) = (shown(given.value, unit::MM), shown(table.si(), unit::MM));
    let message = format!("outside_diameter is {found}; the table has {usual} for this size");
    ask.warning("unusual", "outside_diameter", message)
        .found(found)
        .allowed(format!("usually {usual}"))
        .hint("check the size and the unit; for another pipe write standard = \"own\"");
}

/// Warns of a socket of a standard's pipe that weighs nothing.
pub(super) fn socket_mass(ask: &mut Ask<'_, '_, '_>, given: f64) {
    if given > 0.0 {
        return;
    }
    let found = shown(given, unit::KG);
    ask.warning("unusual", "socket_mass", format!("socket_mass is {found}"))
        .found(found)
        .allowed("usually greater than 0")
        .hint("leave it out to take the usual socket, or give the mass beyond the barrel");
}

/// Refuses rods that are wider inside than outside.
pub(super) fn rod_inside(ask: &mut Ask<'_, '_, '_>, diameter: Length) {
    let Some(inside) = ask.number("inside_diameter") else { return };
    if !rods_are_usual(ask, diameter) || inside.value < diameter.si() {
        return;
    }
    let (found, most) = (shown(inside.value, unit::MM), shown(diameter.si(), unit::MM));
    let message = format!("inside_diameter must be less than diameter ({most}), but was {found}");
    ask.error("order", "inside_diameter", message)
        .found(found)
        .allowed(format!("less than {most}"))
        .hint("diameter is the outside diameter of the rod body");
}

/// Whether the diameter of the rods is usual; one that is not was warned of already, and nothing goes with it.
fn rods_are_usual(ask: &Ask<'_, '_, '_>, diameter: Length) -> bool {
    let usual = ask.record.section.field("diameter").and_then(|field| field.usual);
    usual.is_none_or(|u| u.holds(unit::MM.from_si(diameter.si()), unit::MM))
}

/// Warns of rods heavier than solid steel, or too light to be rods.
///
/// ```text
/// m <= pi/4 d^2 x 7850 kg/m3
/// ```
pub(super) fn rod_mass(ask: &mut Ask<'_, '_, '_>, diameter: Length) {
    let Some(given) = ask.number("mass_per_length") else { return };
    if !rods_are_usual(ask, diameter) {
        return;
    }
    let solid = PI / 4.0 * diameter.si().powi(2) * STEEL;
    if (ROD_LEAST * solid..=solid).contains(&given.value) {
        return;
    }
    let kg = |v: f64| shown(v, unit::KG_PER_M);
    let (found, full) = (kg(given.value), kg(solid));
    let rod = shown(diameter.si(), unit::MM);
    let message = format!("mass_per_length is {found}; a solid bar of {rod} would have {full}");
    ask.warning("unusual", "mass_per_length", message)
        .found(found)
        .allowed(format!("usually {} to {full}", kg(ROD_LEAST * solid)))
        .hint(
            "a bare number is in kg/m: the mass of one metre, not of one rod; check diameter too",
        );
}

/// Warns of a pressure above that of the joints of the size, or of any joint.
pub(super) fn joint_pressure(ask: &mut Ask<'_, '_, '_>, usual: Option<Pressure>) {
    let Some(given) = ask.number("pressure") else { return };
    let most = usual.map_or(PRESSURE_MOST, |p| PRESSURE_MOST.min(PRESSURE_HIGH * p.si()));
    if given.value <= most {
        return;
    }
    let bar = |v: f64| shown(v, unit::BAR);
    let found = bar(given.value);
    let message = match usual {
        Some(p) => format!("pressure is {found}; for this size {} are usual", bar(p.si())),
        None => format!("pressure is {found}, more than joints have"),
    };
    ask.warning("unusual", "pressure", message)
        .found(found)
        .allowed(format!("usually at most {}", bar(most)))
        .hint("a bare number is in bar; take the allowable operating pressure, not that of a test");
}

/// Warns of a reference level far from both ends of the bore.
pub(super) fn reference_level(ask: &mut Ask<'_, '_, '_>, (entry, exit): (Length, Length)) {
    let Some(given) = ask.number("reference_level") else { return };
    let off = |end: Length| (given.value - end.si()).abs();
    if off(entry).min(off(exit)) <= REFERENCE_OFF {
        return;
    }
    let m = |v: f64| shown(v, unit::M);
    let found = m(given.value);
    let (low, high) = (entry.min(exit).si() - REFERENCE_OFF, entry.max(exit).si() + REFERENCE_OFF);
    let message = format!(
        "reference_level is {found}; entry and exit lie at {} and {}",
        m(entry.si()),
        m(exit.si())
    );
    ask.warning("unusual", "reference_level", message)
        .found(found)
        .allowed(format!("usually {} to {}", m(low), m(high)))
        .hint("a level above the datum of the project, where the pressures hold; check the unit");
}

/// Warns where the value shown beside the checks is worse than that of the checks; the name of
/// the expected value is `key` with `_expected`.
pub(super) fn expected(
    ask: &mut Ask<'_, '_, '_>,
    key: &'static str,
    checks: Option<f64>,
    expected: Option<f64>,
) {
    let (Some(checks), Some(expected)) = (checks, expected) else { return };
    if expected <= checks {
        return;
    }
    let (other, unit) = match key {
        "friction_bore" => ("friction_bore_expected", unit::ONE),
        _ => ("fluid_stress_expected", unit::PA),
    };
    // The message stands at a value of the file; the other one may be a default.
    let at = if ask.has(other) { other } else { key };
    let (low, high) = (shown(checks, unit), shown(expected, unit));
    let message =
        format!("the expected value exceeds that of the checks: {other} is {high}, {key} is {low}");
    let (found, allowed) = if at == other {
        (high, format!("usually at most {low}"))
    } else {
        (low, format!("usually at least {high}"))
    };
    ask.warning("order", at, message)
        .found(found)
        .allowed(allowed)
        .hint("the checks take the value on the safe side; give both, or swap them");
}

/// Warns of water that stands above both ends of the bore: it would run out there.
pub(super) fn water(
    ask: &mut Ask<'_, '_, '_>,
    key: &str,
    level: Length,
    entry: Length,
    exit: Length,
) {
    if level <= entry.max(exit) {
        return;
    }
    let m = |v: Length| shown(v.si(), unit::M);
    let message = format!(
        "{key} ({}) lies above the entry and the exit point ({} and {})",
        m(level),
        m(entry),
        m(exit)
    );
    ask.warning("water_above_ends", key, message)
        .found(m(level))
        .allowed(format!("usually at most {}", m(entry.max(exit))))
        .hint("levels are above the datum of the project, no depths; check sign and unit");
}

/// Warns of an obstacle that nothing carries.
pub(super) fn underside(
    ask: &mut Ask<'_, '_, '_>,
    ground: &GroundLine,
    called: &str,
    (from, to): (Length, Length),
    underside: Length,
) {
    // The ground line is straight between its points: its highest level stands at one of them or
    // at an end of the stretch.
    let between = ground.points().filter(|(x, _)| *x > from && *x < to).map(|(_, level)| level);
    let ends = [ground.level_extended(from), ground.level_extended(to)];
    let Some(highest) = between.chain(ends).reduce(Length::max) else { return };
    let above = underside - highest;
    if above.si() <= IN_THE_AIR {
        return;
    }
    let m = |v: Length| shown(v.si(), unit::M);
    let message = format!(
        "{called} stands in the air: its underside lies {} or more above the ground line",
        m(above)
    );
    ask.warning("in_the_air", "underside", message)
        .found(m(underside))
        .allowed(format!("usually at most {}, the ground line there", m(highest)))
        .hint("underside is a level above datum, no height and no depth; check the chainages too");
}

/// Warns of a final diameter that no pass has cut.
pub(super) fn final_diameter(ask: &mut Ask<'_, '_, '_>, given: f64, last: f64) {
    // A smaller one is an error already.
    if given - last <= SAME_DIAMETER {
        return;
    }
    let (found, last) = (shown(given, unit::MM), shown(last, unit::MM));
    let message = format!("final_diameter is {found}, but the last ream pass is {last}");
    ask.warning("not_reamed", "final_diameter", message)
        .found(found)
        .allowed(format!("usually that of the last pass, {last}"))
        .hint("add the pass that is missing in ream, or leave final_diameter out");
}

/// Warns of a permitted pull of another order than the published one of the same size.
pub(super) fn joint_pull(ask: &mut Ask<'_, '_, '_>, published: Force) {
    let Some(given) = ask.number("permitted_pull") else { return };
    let (low, high) = (PULL_LOW * published.si(), PULL_HIGH * published.si());
    if (low..=high).contains(&given.value) {
        return;
    }
    let kn = |v: f64| shown(v, unit::KN);
    let (found, usual) = (kn(given.value), kn(published.si()));
    let message = format!("permitted_pull is {found}; for this size {usual} are published");
    ask.warning("unusual", "permitted_pull", message)
        .found(found)
        .allowed(format!("usually {} to {}", kn(low), kn(high)))
        .hint("a bare number is in kN; check the unit and the size of the certificate");
}
