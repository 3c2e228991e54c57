//! Data of the pipes of the standards.

use pipe::{
    CoatingKind, Pipe, PipeError, awwa_pipe, awwa_socket_depth, coating, en545_pipe, end_thrust,
    factory_test_pressure, lining_tolerance, outside_diameter_tolerance, preferred_class,
    push_on_socket_mass, straightness_limit,
};
use quantity::{Kind, Pressure};
use toml::Table;

use super::arguments::Arguments;
use super::method::{Answer, MethodFailure, Value};

/// Data of one pipe.
///
/// Inputs: `standard` (`EN 545` or `AWWA C151`), `dn` (a size in inches for AWWA C151), `class` (`K9`, `C40`, `350 psi`).
/// Outputs: `outside_diameter`, `wall_nominal`, `wall_min`, `bore`, `barrel_mass`, `mass_per_pipe`, `mass_per_length`,
/// `laying_length`, `pfa`, `pma`, `pea`, `iron_area`, `water_mass`, `thrust_area`, `lining`, `straightness`,
/// `fibre_mortar_mass`, the mass of a coating of fibre mortar, and `socket_diameter` where it is known; for EN 545
/// `push_on_socket_mass`, `outside_diameter_minus`, `lining_minus`, `preferred_class` and, where it is published,
/// `factory_test`; for AWWA C151 `socket_depth` where it is published.
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
        Some(Ok(pipe)) => {
            let own = if standard == "EN 545" { en545(&pipe, dn) } else { awwa(dn) };
            let both = answer(&pipe).and_then(|general| Ok([general, own?].concat()));
            both.map_err(|e| vec![refused(&e)])
        }
        Some(Err(error)) => Err(vec![refused(&error)]),
        None => Err(vec![MethodFailure::new("not_a_choice", "standard", "is unknown")]),
    }
}

fn answer(pipe: &Pipe) -> Result<Answer, PipeError> {
    let rating = pipe.rating()?;
    // A pascal on the closed end: the thrust in newtons is the area in square metres.
    let thrust_area = end_thrust(Pressure::from_si(1.0), pipe.outside_diameter())?.si();
    let mortar = coating(CoatingKind::FibreMortar).value;
    let ring = (pipe.outside_diameter().si() + mortar.thickness.si()) * mortar.thickness.si();
    let mortar_mass = std::f64::consts::PI * ring * mortar.density.si();
    let water_mass = pipe.bore_area().si() * pipe::WATER_DENSITY.si();
    let straightness = straightness_limit(pipe.laying_length())?;
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
        ("iron_area", pipe.iron_area().si(), Kind::Area),
        ("water_mass", water_mass, Kind::MassPerLength),
        ("thrust_area", thrust_area, Kind::Area),
        ("lining", pipe.lining().thickness.si(), Kind::Length),
        ("straightness", straightness.si(), Kind::Length),
        ("fibre_mortar_mass", mortar_mass, Kind::MassPerLength),
    ];
    if let Some(socket) = pipe.socket_outside_diameter() {
        answer.push(("socket_diameter", socket.si(), Kind::Length));
    }
    Ok(answer.into_iter().map(named).collect())
}

fn named((key, si, kind): (&str, f64, Kind)) -> (String, Value) {
    (key.to_owned(), Value::Number(si, kind))
}

fn en545(pipe: &Pipe, dn: u32) -> Result<Answer, PipeError> {
    let socket = push_on_socket_mass(pipe.outside_diameter())?.value.si();
    let minus = outside_diameter_tolerance(dn)?.value.si();
    let mut answer = vec![
        named(("push_on_socket_mass", socket, Kind::Mass)),
        named(("outside_diameter_minus", minus, Kind::Length)),
        named(("lining_minus", lining_tolerance(dn)?.value.si(), Kind::Length)),
        ("preferred_class".to_owned(), Value::Word(preferred_class(dn)?.to_owned())),
    ];
    if let Some(test) = factory_test_pressure(dn, pipe.class())? {
        answer.push(named(("factory_test", test.value.si(), Kind::Pressure)));
    }
    Ok(answer)
}

fn awwa(size: u32) -> Result<Answer, PipeError> {
    let depth = awwa_socket_depth(size)?;
    Ok(depth.iter().map(|d| named(("socket_depth", d.value.si(), Kind::Length))).collect())
}

pub(super) fn whole(key: &'static str, text: &str, arguments: &mut Arguments<'_>) -> u32 {
    text.trim().parse().unwrap_or_else(|_| {
        arguments.fail("unreadable", key, format!("expected a whole number, found \"{text}\""));
        0
    })
}

pub(super) fn refused(error: &PipeError) -> MethodFailure {
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
