//! Values that are allowed and seldom meant, seen beside other values of the file.
//!
//! What is unusual by itself stands in the definition of its field.

use ground::GroundLine;
use quantity::{Force, Length, unit};

use crate::context::Ask;
use crate::wording::shown;

/// A pull above this many times the published one is most likely a slip of the unit. Judgement.
const PULL_HIGH: f64 = 3.0;
/// A pull below this share of the published one likewise. Judgement.
const PULL_LOW: f64 = 0.2;
/// Difference between the last pass and the final diameter that nobody asks about, m. Judgement.
const SAME_DIAMETER: f64 = 5e-3;
/// Height over the ground line up to which an underside may be a bank or a deck, m. Judgement.
const IN_THE_AIR: f64 = 0.5;

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
