//! Paths of straights and arcs, marched by the soft string and by the stiff-pipe method.

use pull::published::{
    Arc, BendPlane, Contact, PathPart, PublishedError, SoftString, SoftStringElement, StiffPipe,
    soft_string, stiff_path,
};
use quantity::{Angle, Force, ForcePerLength, Kind, Length, Pressure};
use toml::{Table, Value as Toml};

use super::arguments::Arguments;
use super::method::{Answer, MethodFailure, Value};

/// One part of a path in the direction of the pull, SI.
#[derive(Debug, Clone, Copy)]
struct Part {
    length: f64,
    inclination_from: f64,
    inclination_to: f64,
    azimuth_change: f64,
}

/// Marches a soft string along a path.
///
/// Inputs: `diameter`, `net_weight`, `friction`, `fluid_stress`, `step`, `force_in` (0), `distance` (to the end),
/// `path`, a list of `{ length, inclination }`, `{ radius, from, to }` for a bend in profile between two
/// inclinations, and `{ radius, turn }` for a level bend in plan. Outputs: `force`, `length`, `depth` of the lowest
/// point below the start, `rise` of the end above the lowest point.
pub(super) fn soft(given: &Table) -> Result<Answer, Vec<MethodFailure>> {
    let mut arguments = Arguments::new(given);
    let string = SoftString {
        diameter: Length::from_si(arguments.quantity("diameter", Kind::Length)),
        net_weight: ForcePerLength::from_si(arguments.quantity("net_weight", Kind::ForcePerLength)),
        friction: arguments.quantity("friction", Kind::Ratio),
        fluid_stress: Pressure::from_si(arguments.quantity("fluid_stress", Kind::Pressure)),
    };
    let step = arguments.quantity("step", Kind::Length);
    let force_in = Force::from_si(arguments.quantity_or("force_in", Kind::Force, 0.0));
    let distance = arguments.quantity_if_given("distance", Kind::Length);
    let parts = arguments.list("path").iter().map(|part| soft_part(part, &mut arguments));
    let parts: Vec<Part> = parts.collect();
    if step <= 0.0 {
        arguments.fail("out_of_range", "step", "must be greater than 0");
    }
    let length: f64 = parts.iter().map(|part| part.length).sum();
    if distance.is_some_and(|x| !(0.0..=length).contains(&x)) {
        arguments.fail("out_of_range", "distance", "must lie on the path");
    }
    arguments.finish()?;
    let elements = elements(&parts, step, distance.unwrap_or(length));
    let forces = soft_string(&string, force_in, &elements).map_err(|e| vec![refused(&e)])?;
    let (mut level, mut lowest) = (0.0f64, 0.0f64);
    for e in &elements {
        level += e.length.si() * e.inclination.si().sin();
        lowest = lowest.min(level);
    }
    let force = forces.last().copied().unwrap_or(force_in);
    Ok(vec![
        ("force".to_owned(), Value::Number(force.si(), Kind::Force)),
        ("length".to_owned(), Value::Number(length, Kind::Length)),
        ("depth".to_owned(), Value::Number(-lowest, Kind::Length)),
        ("rise".to_owned(), Value::Number(level - lowest, Kind::Length)),
    ])
}

/// Reads one part; a part of no length after a failure, which the arguments report.
fn soft_part(value: &Toml, outer: &mut Arguments<'_>) -> Part {
    let nothing =
        Part { length: 0.0, inclination_from: 0.0, inclination_to: 0.0, azimuth_change: 0.0 };
    let Some(table) = value.as_table() else {
        outer.fail("unreadable", "path", "every part must be a table");
        return nothing;
    };
    let mut inner = Arguments::new(table);
    let part = if table.contains_key("length") {
        let inclination = inner.quantity("inclination", Kind::Angle);
        Part {
            length: inner.quantity("length", Kind::Length),
            inclination_from: inclination,
            inclination_to: inclination,
            azimuth_change: 0.0,
        }
    } else {
        let radius = inner.quantity("radius", Kind::Length);
        if table.contains_key("turn") {
            let turn = inner.quantity("turn", Kind::Angle);
            Part { length: radius * turn.abs(), azimuth_change: turn, ..nothing }
        } else {
            let from = inner.quantity("from", Kind::Angle);
            let to = inner.quantity("to", Kind::Angle);
            Part {
                length: radius * (to - from).abs(),
                inclination_from: from,
                inclination_to: to,
                azimuth_change: 0.0,
            }
        }
    };
    pass_on(inner, outer);
    if part.length > 0.0 && part.length.is_finite() {
        part
    } else {
        outer.fail("out_of_range", "path", "every part must have a length greater than 0");
        nothing
    }
}

fn pass_on(inner: Arguments<'_>, outer: &mut Arguments<'_>) {
    for failure in inner.finish().err().unwrap_or_default() {
        outer.fail("unreadable", "path", format!("{}: {}", failure.key, failure.message));
    }
}

/// Most elements of one part, so that a misprinted step cannot fill the memory.
const MOST_ELEMENTS: f64 = 1e6;

/// Elements of about `step` up to a distance along the path.
fn elements(parts: &[Part], step: f64, distance: f64) -> Vec<SoftStringElement> {
    let mut left = distance;
    let mut elements = Vec::new();
    for part in parts {
        let used = part.length.min(left);
        if used <= 0.0 {
            break;
        }
        left -= used;
        let count = (used / step - 1e-9).ceil().clamp(1.0, MOST_ELEMENTS);
        let share = used / part.length / count;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "count is a whole number between 1 and a million"
        )]
        for k in 0..count as u32 {
            let change = part.inclination_to - part.inclination_from;
            elements.push(SoftStringElement {
                length: Length::from_si(used / count),
                inclination: Angle::from_si(
                    part.inclination_from + change * share * (f64::from(k) + 0.5),
                ),
                inclination_change: Angle::from_si(change * share),
                azimuth_change: Angle::from_si(part.azimuth_change * share),
            });
        }
    }
    elements
}

/// Takes the stiff-pipe method along a path.
///
/// Inputs: `outside_diameter`, `wall`, `modulus`, `net_weight`, `friction`, `fluid_stress`, `force_in` (0), `path`, a
/// list of `{ length, inclination }` and `{ radius, angle, mean_inclination, plane }` with plane `sag`, `over` or
/// `plan`. Outputs: `force_1`, `force_2` … after each part, and `force` at the end.
pub(super) fn stiff(given: &Table) -> Result<Answer, Vec<MethodFailure>> {
    let mut arguments = Arguments::new(given);
    let pipe = StiffPipe {
        outside_diameter: Length::from_si(arguments.quantity("outside_diameter", Kind::Length)),
        wall: Length::from_si(arguments.quantity("wall", Kind::Length)),
        modulus: Pressure::from_si(arguments.quantity("modulus", Kind::Pressure)),
        net_weight: ForcePerLength::from_si(arguments.quantity("net_weight", Kind::ForcePerLength)),
    };
    let contact = Contact {
        friction: arguments.quantity("friction", Kind::Ratio),
        fluid_stress: Pressure::from_si(arguments.quantity("fluid_stress", Kind::Pressure)),
    };
    let force_in = Force::from_si(arguments.quantity_or("force_in", Kind::Force, 0.0));
    let parts = arguments.list("path").iter().map(|part| stiff_part(part, &mut arguments));
    let parts: Vec<PathPart> = parts.collect();
    arguments.finish()?;
    let forces =
        stiff_path(&pipe, &contact, force_in, &parts).map_err(|error| vec![refused(&error)])?;
    let value = |force: &Force| Value::Number(force.si(), Kind::Force);
    let mut answer: Answer = forces
        .iter()
        .enumerate()
        .map(|(index, force)| (format!("force_{}", index + 1), value(force)))
        .collect();
    answer.push(("force".to_owned(), value(forces.last().unwrap_or(&force_in))));
    Ok(answer)
}

fn stiff_part(part: &Toml, outer: &mut Arguments<'_>) -> PathPart {
    let empty = Table::new();
    let table = part.as_table().unwrap_or(&empty);
    let mut inner = Arguments::new(table);
    let part = if table.contains_key("length") {
        PathPart::Straight {
            length: Length::from_si(inner.quantity("length", Kind::Length)),
            inclination: Angle::from_si(inner.quantity("inclination", Kind::Angle)),
        }
    } else {
        let plane = match inner.word("plane").as_str() {
            "over" => BendPlane::Over,
            "plan" => BendPlane::Plan,
            "sag" => BendPlane::Sag,
            other => {
                inner.fail("not_a_choice", "plane", format!("is \"{other}\", not sag, over, plan"));
                BendPlane::Sag
            }
        };
        PathPart::Arc(Arc {
            radius: Length::from_si(inner.quantity("radius", Kind::Length)),
            angle: Angle::from_si(inner.quantity("angle", Kind::Angle)),
            mean_inclination: Angle::from_si(inner.quantity("mean_inclination", Kind::Angle)),
            plane,
        })
    };
    pass_on(inner, outer);
    part
}

fn refused(error: &PublishedError) -> MethodFailure {
    let key = error.quantity().unwrap_or_default().replace(' ', "_");
    MethodFailure::new("refused", &key, error.to_string())
}

#[cfg(test)]
mod tests {
    use std::f64::consts::FRAC_PI_2;

    use super::*;

    fn path(text: &str) -> Table {
        let head = "diameter = \"0.6 m\"\nnet_weight = \"0 N/m\"\nfriction = \"0.3\"\n\
                    fluid_stress = \"0 Pa\"\nstep = \"0.1 m\"\nforce_in = \"100 kN\"\n";
        toml::from_str(&format!("{head}{text}")).unwrap()
    }

    fn codes(text: &str) -> Vec<String> {
        soft(&path(text)).unwrap_err().into_iter().map(|f| f.code).collect()
    }

    #[test]
    fn profile_and_plan_bends_of_one_angle_give_one_force() {
        let force = |text| soft(&path(text)).unwrap()[0].1.clone();
        let profile = force("path = [{ radius = \"100 m\", from = \"-10 deg\", to = \"20 deg\" }]");
        let plan = force("path = [{ radius = \"100 m\", turn = \"-30 deg\" }]");
        let (Value::Number(profile, _), Value::Number(plan, _)) = (profile, plan) else { panic!() };
        assert!((profile - plan).abs() < 1e-6 * plan);
        assert!((plan / 1e5 - (0.3 * FRAC_PI_2 / 3.0).exp()).abs() < 1e-4);
    }

    #[test]
    fn misprints_in_a_path_are_refused() {
        assert_eq!(codes("path = [{ length = \"10 m\" }]"), ["unreadable"]);
        assert_eq!(
            codes("path = [{ length = \"0 m\", inclination = \"0 deg\" }]"),
            ["out_of_range"]
        );
        let straight = "path = [{ length = \"10 m\", inclination = \"0 deg\" }]";
        assert_eq!(codes(&format!("{straight}\ndistance = \"11 m\"")), ["out_of_range"]);
        assert_eq!(codes(&format!("{straight}\nspeed = \"11 m\"")), ["unknown_key"]);
        assert_eq!(codes("path = 3"), ["unreadable"]);
        let bend = "path = [{ radius = \"9 m\", turn = \"10 deg\", slope = \"1 deg\" }]";
        assert_eq!(codes(bend), ["unreadable"]);
    }
}
