//! Bore, rods, pressures and factors.

use line::rod_radius;
use quantity::{Angle, Force, Length, MassPerLength, Pressure, unit};

use super::{drilling, ground_factors, plausible};
use crate::context::{Ask, Context};
use crate::model::{Bore, Factors, Rods, ServicePressures};
use crate::tree::Tree;
use crate::value::Reading;
use crate::wording::shown;

/// The bore; `delivered` is what the pump delivers, m3/s.
pub(super) fn bore(tree: &Tree, cx: &mut Context<'_>, delivered: Option<f64>) -> Option<Bore> {
    let record = tree.one("bore")?;
    let mut ask = cx.ask(record);
    let pilot = ask.number("pilot_diameter");
    let final_given = ask.number("final_diameter");
    if record.present && !record.has("final_diameter") {
        ask.require("ream", "because final_diameter is not given");
    }
    let passes = match ask.reading("ream") {
        Some(given) => match given.value {
            Reading::Numbers(list) => Some(list),
            _ => None,
        },
        None if ask.has("ream") => None,
        None => Some(Vec::new()),
    };
    if let Some(passes) = &passes {
        let mut before = pilot.as_ref().map(|p| ("the pilot bore".to_owned(), p.value));
        for (i, pass) in passes.iter().enumerate() {
            if let Some((name, least)) = before.filter(|(_, least)| pass.value <= *least) {
                let (found, least) = (shown(pass.value, unit::MM), shown(least, unit::MM));
                let message = format!(
                    "ream pass {} must be wider than {name} ({least}), but was {found}",
                    i + 1
                );
                cx.report
                    .error("not_rising", &pass.place, message)
                    .found(found)
                    .allowed(format!("greater than {least}"))
                    .hint("write the passes in the order of the work, each wider than the last");
            }
            before = Some((format!("pass {}", i + 1), pass.value));
        }
    }
    let last = passes.as_ref().and_then(|p| p.last()).map(|p| p.value);
    let mut ask = cx.ask(record);
    if let (Some(last), Some(given)) = (last, &final_given)
        && given.value < last
    {
        let (found, least) = (shown(given.value, unit::MM), shown(last, unit::MM));
        let message = format!(
            "final_diameter must be at least the last ream pass ({least}), but was {found}"
        );
        ask.error("order", "final_diameter", message)
            .found(found)
            .allowed(format!("at least {least}"))
            .hint("take the pass out, or leave final_diameter out to use the last pass");
    }
    if let (Some(last), Some(given)) = (last, &final_given) {
        plausible::final_diameter(&mut ask, given.value, last);
    }
    let final_diameter = ask.number_or("final_diameter", last);
    let rods = rods(&mut cx.ask(tree.one("bore.rods")?));
    if let (Some(pilot), Some(rod)) = (&pilot, rods.diameter)
        && pilot.value <= rod.si()
    {
        let (found, least) = (shown(pilot.value, unit::MM), shown(rod.si(), unit::MM));
        let message = format!(
            "pilot_diameter must be greater than the diameter of the rods ({least}), but was {found}"
        );
        cx.ask(record)
            .error("order", "pilot_diameter", message)
            .found(found)
            .allowed(format!("greater than {least}"))
            .hint("the fluid returns between rods and bore: check the units of both");
    }
    let count = passes.as_ref().map_or(0, Vec::len);
    let drilling = drilling::build(tree, cx, count, delivered);
    let drilling = drilling?;
    Some(Bore {
        pilot_diameter: pilot.map(|g| Length::from_si(g.value)),
        ream_diameters: passes?.into_iter().map(|p| Length::from_si(p.value)).collect(),
        final_diameter: Length::from_si(final_diameter?),
        rods,
        pilot: drilling.pilot,
        reaming: drilling.reaming,
        pulling: drilling.pulling,
        pulling_speed: drilling.pulling_speed,
    })
}

fn rods(ask: &mut Ask<'_, '_, '_>) -> Rods {
    let length = ask.number("length");
    let diameter = ask.number("diameter").map(|g| Length::from_si(g.value));
    let inside = ask.number("inside_diameter");
    if let Some(diameter) = diameter {
        plausible::rod_inside(ask, diameter);
    }
    let usual = diameter.and_then(|d| rod_radius(d).ok());
    let minimum_radius = ask.number_or("minimum_radius", usual.map(Length::si));
    let permitted_pull = ask.number("permitted_pull");
    let mass = ask.number("mass_per_length");
    if let Some(diameter) = diameter {
        plausible::rod_mass(ask, diameter);
    }
    Rods {
        length: length.map(|g| Length::from_si(g.value)),
        diameter,
        inside_diameter: inside.map(|g| Length::from_si(g.value)),
        minimum_radius: minimum_radius.map(Length::from_si),
        permitted_pull: permitted_pull.map(|g| Force::from_si(g.value)),
        mass_per_length: mass.map(|g| MassPerLength::from_si(g.value)),
    }
}

/// The pressures; `ends` are the levels of entry and exit.
pub(super) fn service(
    tree: &Tree,
    cx: &mut Context<'_>,
    ends: Option<(Length, Length)>,
) -> Option<ServicePressures> {
    const RISING: [&str; 3] = ["operating_pressure", "maximum_design_pressure", "test_pressure"];
    let mut ask = cx.ask(tree.one("service")?);
    let all = RISING.map(|key| ask.number(key).map(|g| g.value));
    let given = RISING.iter().zip(all).filter_map(|(key, value)| Some((*key, value?)));
    let given: Vec<_> = given.collect();
    for pair in given.windows(2) {
        if let [(lower, low), (higher, high)] = pair
            && high < low
        {
            let (low, high) = (shown(*low, unit::BAR), shown(*high, unit::BAR));
            let message = format!("{higher} must be at least {lower} ({low}), but was {high}");
            ask.error("order", higher, message)
                .found(high)
                .allowed(format!("at least {low}"))
                .hint("the test lies above the design pressure, and that above operation");
        }
    }
    let highest = ends.map(|(entry, exit)| entry.max(exit).si());
    let reference = ask.number_or("reference_level", highest);
    if let Some(ends) = ends {
        plausible::reference_level(&mut ask, ends);
    }
    let [operating, maximum_design, test] = all.map(|v| v.map(Pressure::from_si));
    let reference_level = Length::from_si(reference?);
    Some(ServicePressures { operating, maximum_design, test, reference_level })
}

/// The factors; `largest_diameter` of the string is `None` where the socket is not known.
pub(super) fn factors(
    tree: &Tree,
    cx: &mut Context<'_>,
    largest_diameter: Option<Length>,
) -> Option<Factors> {
    let mut ask = cx.ask(tree.one("factors")?);
    // Every value is asked for before the first broken one ends the building.
    let [bore, bore_expected, stress, stress_expected] =
        ["friction_bore", "friction_bore_expected", "fluid_stress", "fluid_stress_expected"]
            .map(|key| ask.number_or_default(key));
    plausible::expected(&mut ask, "friction_bore", bore, bore_expected);
    plausible::expected(&mut ask, "fluid_stress", stress, stress_expected);
    let [restart, angle, rig, barrel] =
        ["restart", "joint_angle_share", "rig_share", "barrel_share"]
            .map(|key| ask.number_or_default(key));
    let ratio = ask.number_or("bore_ratio", Some(usual_bore_ratio(largest_diameter)));
    let [buckling, attention, entry_limit, exit_limit, spread, multiple] = [
        "buckling",
        "attention",
        "entry_angle_limit",
        "exit_angle_limit",
        "position_spread",
        "position_multiple",
    ]
    .map(|key| ask.number_or_default(key));
    let ground = ground_factors::build(tree, cx);
    Some(Factors {
        friction_bore: bore?,
        friction_bore_expected: bore_expected?,
        fluid_stress: Pressure::from_si(stress?),
        fluid_stress_expected: Pressure::from_si(stress_expected?),
        restart: restart?,
        joint_angle_share: angle?,
        rig_share: rig?,
        barrel_share: barrel?,
        buckling: buckling?,
        bore_ratio: ratio?,
        attention: attention?,
        entry_angle_limit: Angle::from_si(entry_limit?),
        exit_angle_limit: Angle::from_si(exit_limit?),
        position_spread: spread?,
        position_multiple: multiple?,
        ground: ground?,
    })
}

/// Bore over largest outside diameter that is asked for where the file does not say.
///
/// ```text
/// f = min(1.5, 1 + 0.3 m / D)
/// ```
/// D is the largest outside diameter of the string; 1.5 where it is not known. Above 600 mm the
/// room of 300 mm takes over.
///
/// # Source
/// Thresholds of a good-practice guideline, from memory.
fn usual_bore_ratio(largest_diameter: Option<Length>) -> f64 {
    const RATIO: f64 = 1.5;
    /// Room beside a large pipe, m.
    const ROOM: f64 = 0.3;
    largest_diameter.map_or(RATIO, |d| RATIO.min(1.0 + ROOM / d.si()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_usual_bore_gives_large_pipe_room_instead_of_a_ratio() {
        let ratio = |mm: f64| usual_bore_ratio(Some(Length::millimetres(mm)));
        assert_eq!(usual_bore_ratio(None), 1.5);
        assert_eq!(ratio(300.0), 1.5);
        assert!((ratio(600.0) - 1.5).abs() < 1e-12);
        assert!((ratio(1000.0) - 1.3).abs() < 1e-12);
        assert!((1.2 * ratio(1200.0) - 1.5).abs() < 1e-12);
    }
}
