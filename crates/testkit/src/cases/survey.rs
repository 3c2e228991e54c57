//! Positions on a surveyed line.

use std::f64::consts::FRAC_PI_2;

use glam::DVec3;
use line::{Line, SurveyStation};
use quantity::{Angle, Kind, Length, Unit, unit};
use toml::{Table, Value as Toml};

use super::arguments::Arguments;
use super::method::{Answer, MethodFailure, Value};

/// Position at a measured distance of a line given by a survey.
///
/// Inputs: `stations`, a list of `[md, inclination from the vertical in degrees, azimuth in degrees]`, as surveys of
/// wells print them; `length_unit` of the bare distances (`m`); `md`. Outputs, from the first station: `north`,
/// `east`, `rise`; and `inclination` from the horizontal and `azimuth` there.
pub(super) fn positions(given: &Table) -> Result<Answer, Vec<MethodFailure>> {
    let mut arguments = Arguments::new(given);
    let length_unit = if given.contains_key("length_unit") {
        let symbol = arguments.word("length_unit");
        Unit::find(&symbol, Kind::Length).unwrap_or_else(|| {
            arguments.fail("unreadable", "length_unit", format!("\"{symbol}\" is no length"));
            unit::M
        })
    } else {
        unit::M
    };
    let stations: Vec<SurveyStation> = arguments
        .list("stations")
        .iter()
        .filter_map(|row| station(row, length_unit, &mut arguments))
        .collect();
    let md = arguments.quantity("md", Kind::Length);
    arguments.finish()?;
    let line = Line::from_survey(DVec3::ZERO, &stations).map_err(|errors| {
        let refusal =
            |e: &line::LineError| MethodFailure::new("refused", "stations", e.to_string());
        errors.iter().map(refusal).collect::<Vec<_>>()
    })?;
    let at = line
        .at(Length::from_si(md))
        .map_err(|e| vec![MethodFailure::new("out_of_range", "md", e.to_string())])?;
    let number = |key: &str, si, kind| (key.to_owned(), Value::Number(si, kind));
    Ok(vec![
        number("north", at.position.y, Kind::Length),
        number("east", at.position.x, Kind::Length),
        number("rise", at.position.z, Kind::Length),
        number("inclination", at.inclination.si(), Kind::Angle),
        number("azimuth", at.azimuth.si(), Kind::Angle),
    ])
}

fn station(row: &Toml, length_unit: Unit, arguments: &mut Arguments<'_>) -> Option<SurveyStation> {
    let numbers: Option<Vec<f64>> =
        row.as_array().and_then(|list| list.iter().map(number_of).collect());
    match numbers.as_deref() {
        Some(&[md, from_vertical, azimuth]) => Some(SurveyStation {
            md: Length::from_si(length_unit.to_si(md)),
            // From the downward vertical: 90 degrees are level, more rise.
            inclination: Angle::from_si(from_vertical.to_radians() - FRAC_PI_2),
            azimuth: Angle::degrees(azimuth),
        }),
        _ => {
            arguments.fail("unreadable", "stations", "every station must be three numbers");
            None
        }
    }
}

fn number_of(value: &Toml) -> Option<f64> {
    #[expect(clippy::cast_precision_loss, reason = "stations are small whole numbers")]
    let whole = |n: i64| n as f64;
    value.as_float().or_else(|| value.as_integer().map(whole))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(text: &str) -> Result<Answer, Vec<MethodFailure>> {
        positions(&toml::from_str(text).unwrap())
    }

    #[test]
    fn level_and_falling_lines_go_where_they_point() {
        let level = at("stations = [[0, 90, 90], [100, 90.0, 90]]\nmd = \"40 m\"").unwrap();
        let east = level.iter().find(|(key, _)| key == "east").unwrap();
        assert!(matches!(east.1, Value::Number(e, _) if (e - 40.0).abs() < 1e-9));
        let text = "length_unit = \"ft\"\nstations = [[0, 60, 0], [100, 60, 0]]\nmd = \"100 ft\"";
        let falling = at(text).unwrap();
        let rise = falling.iter().find(|(key, _)| key == "rise").unwrap();
        assert!(matches!(rise.1, Value::Number(r, _) if (r + 0.5 * 30.48).abs() < 1e-9));
    }

    #[test]
    fn broken_surveys_are_refused() {
        let codes = |text: &str| -> Vec<_> {
            at(text).unwrap_err().into_iter().map(|f| (f.code, f.key)).collect()
        };
        let stations = "stations = [[0, 90, 90], [100, 90, 90]]";
        let expect = |code: &str, key: &str| vec![(code.to_owned(), key.to_owned())];
        assert_eq!(codes(&format!("{stations}\nmd = \"200 m\"")), expect("out_of_range", "md"));
        assert_eq!(codes("stations = [[0, 90]]\nmd = \"0 m\"")[0].0, "unreadable");
        assert_eq!(
            codes("stations = [[0, 90, 0], [0, 90, 0]]\nmd = \"0 m\""),
            expect("refused", "stations")
        );
        assert_eq!(codes(&format!("{stations}\nmd = \"1 m\"\nx = 1"))[0].0, "unknown_key");
    }
}
