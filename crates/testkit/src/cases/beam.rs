//! The beam under tension that stands for a stiff pipe in a bend.

use pull::published::{StiffPipe, tension_beam_midpoint};
use quantity::{Force, ForcePerLength, Kind, Length, Pressure};
use toml::Table;

use super::arguments::Arguments;
use super::method::{Answer, MethodFailure, Value};

/// Deflection at the middle of a simply supported beam under tension.
///
/// Inputs: `outside_diameter`, `wall`, `modulus`, `tension`, `span`, and in the direction of the deflection `force` at
/// the middle and `load` per length. Output: `deflection`.
pub(super) fn midpoint(given: &Table) -> Result<Answer, Vec<MethodFailure>> {
    let mut arguments = Arguments::new(given);
    let pipe = StiffPipe {
        outside_diameter: Length::from_si(arguments.quantity("outside_diameter", Kind::Length)),
        wall: Length::from_si(arguments.quantity("wall", Kind::Length)),
        modulus: Pressure::from_si(arguments.quantity("modulus", Kind::Pressure)),
        net_weight: ForcePerLength::ZERO,
    };
    let tension = Force::from_si(arguments.quantity("tension", Kind::Force));
    let span = Length::from_si(arguments.quantity("span", Kind::Length));
    let force = Force::from_si(arguments.quantity("force", Kind::Force));
    let load = ForcePerLength::from_si(arguments.quantity("load", Kind::ForcePerLength));
    arguments.finish()?;
    let deflection = tension_beam_midpoint(&pipe, span, tension, force, load)
        .map_err(|e| vec![MethodFailure::new("refused", "", e.to_string())])?;
    Ok(vec![("deflection".to_owned(), Value::Number(deflection.si(), Kind::Length))])
}
