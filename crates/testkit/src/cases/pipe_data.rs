//! Data of the pipes of the standards.

use pipe::{Pipe, PipeError, awwa_pipe, en545_pipe};
use quantity::Kind;
use toml::Table;

use super::arguments::Arguments;
use super::method::{Answer, MethodFailure, Value};

/// Data of one pipe.
///
/// Inputs: `standard` (`EN 545` or `AWWA C151`), `dn` (a size in inches for AWWA C151), `class` (`K9`, `C40`, `350 psi`).
/// Outputs: `outside_diameter`, `wall_nominal`, `wall_min`, `bore`, `barrel_mass`, `mass_per_pipe`, `mass_per_length`,
/// `laying_length`, `pfa`, `pma`, `pea`, and `socket_diameter` where it is known.
pub(super) fn pipe(given: &Table) -> Result<Answer, Vec<MethodFailure>> {
    let mut arguments = Arguments::new(given);
    let standard = arguments.word("standard");
    let class = arguments.word("class");
    let dn = whole("dn", &arguments.word("dn"), &mut arguments);
    let found: Option<Result<Pipe, PipeError>> = match standard.as_str() {
        "EN 545" => Some(en545_pipe(dn, &class)),
        "AWWA C151" => {
            let psi = class.trim().trim_end_matches("psi").trim_end();
            Some(awwa_pipe(dn, whole("class", psi, &mut arguments)))
        }
        other => {
            let message = format!("must be EN 545 or AWWA C151, but was \"{other}\"");
            arguments.fail("not_a_choice", "standard", message);
            None
        }
    };
    arguments.finish()?;
    match found {
        Some(Ok(pipe)) => answer(&pipe).map_err(|e| vec![refused(&e)]),
        Some(Err(error)) => Err(vec![refused(&error)]),
        None => Err(vec![MethodFailure::new("not_a_choice", "standard", "is unknown")]),
    }
}

fn answer(pipe: &Pipe) -> Result<Answer, PipeError> {
    let rating = pipe.rating()?;
    let mut answer = vec![
        ("outside_diameter", pipe.outside_diameter().si(), Kind::Length),
        ("wall_nominal", pipe.wall_nominal().si(), Kind::Length),
        ("wall_min", pipe.wall_min().si(), Kind::Length),
        ("bore", pipe.bore().si(), Kind::Length),
        ("barrel_mass", pipe.barrel_mass_per_length().si(), Kind::MassPerLength),
        ("mass_per_pipe", pipe.mass_per_pipe().si(), Kind::Mass),
        ("mass_per_length", pipe.mass_per_length().si(), Kind::MassPerLength),
        ("laying_length", pipe.laying_length().si(), Kind::Length),
        ("pfa", rating.pfa.si(), Kind::Pressure),
        ("pma", rating.pma.si(), Kind::Pressure),
        ("pea", rating.pea.si(), Kind::Pressure),
    ];
    if let Some(socket) = pipe.socket_outside_diameter() {
        answer.push(("socket_diameter", socket.si(), Kind::Length));
    }
    let named = |(key, si, kind): (&str, f64, Kind)| (key.to_owned(), Value::Number(si, kind));
    Ok(answer.into_iter().map(named).collect())
}

fn whole(key: &'static str, text: &str, arguments: &mut Arguments<'_>) -> u32 {
    text.trim().parse().unwrap_or_else(|_| {
        arguments.fail("unreadable", key, format!("expected a whole number, found \"{text}\""));
        0
    })
}

fn refused(error: &PipeError) -> MethodFailure {
    let key = match error {
        PipeError::UnknownSize { .. } => "dn",
        PipeError::UnknownClass { .. } => "class",
        PipeError::OutOfRange { .. } | PipeError::Table { .. } => "",
    };
    MethodFailure::new(error.code(), key, error.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn codes(text: &str) -> Vec<(String, String)> {
        let failures = pipe(&toml::from_str(text).unwrap()).unwrap_err();
        failures.into_iter().map(|f| (f.code, f.key)).collect()
    }

    #[test]
    fn wall_lies_between_bore_and_outside() {
        let text = "standard = \"EN 545\"\ndn = 600\nclass = \"K9\"";
        let answer = pipe(&toml::from_str(text).unwrap()).unwrap();
        let value = |key: &str| match answer.iter().find(|(k, _)| k == key) {
            Some((_, Value::Number(v, _))) => *v,
            other => panic!("{key}: {other:?}"),
        };
        assert!(value("wall_min") < value("wall_nominal"));
        assert!(value("bore") < value("outside_diameter") - 2.0 * value("wall_nominal"));
    }

    #[test]
    fn unknown_standards_sizes_and_classes_are_refused_at_their_key() {
        let pair = |code: &str, key: &str| (code.to_owned(), key.to_owned());
        let size = "standard = \"EN 545\"\ndn = 601\nclass = \"K9\"";
        assert_eq!(codes(size), [pair("unknown_size", "dn")]);
        let class = "standard = \"EN 545\"\ndn = 600\nclass = \"Z9\"";
        assert_eq!(codes(class), [pair("unknown_class", "class")]);
        let standard = "standard = \"none\"\ndn = 600\nclass = \"K9\"";
        assert_eq!(codes(standard), [pair("not_a_choice", "standard")]);
        let word = "standard = \"AWWA C151\"\ndn = 24\nclass = \"thick\"";
        assert_eq!(codes(word), [pair("unreadable", "class")]);
    }
}
