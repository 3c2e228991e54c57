//! How the dimensions and the mass of a pipe go with each other.

use pipe::{Pipe, PipeData, Valued};
use quantity::{Length, MassPerLength, unit};

use crate::context::Ask;
use crate::given::Given;
use crate::wording::shown;

/// Checks how the dimensions go with each other, each fault at the value that is to be changed.
///
/// Where others stand in for dimensions that are not known (`whole` is false) only values of the
/// file are held against each other.
pub(super) fn consistent(ask: &mut Ask<'_, '_, '_>, data: PipeData, whole: bool) -> Option<Pipe> {
    let all = |ask: &mut Ask<'_, '_, '_>, keys: &[&str]| {
        whole || keys.iter().filter(|key| ask.has(key)).count() == keys.len()
    };
    let mm = |l: Length| shown(l.si(), unit::MM);
    let (outside, wall) = (data.outside_diameter.value, data.wall_nominal.value);
    let errors = ask.errors();
    if wall.si() >= outside.si() / 2.0 && all(ask, &["wall", "outside_diameter"]) {
        let message = format!(
            "wall must be below half the outside diameter ({}), but was {}",
            mm(outside / 2.0),
            mm(wall)
        );
        ask.error("wall_too_thick", "wall", message)
            .found(mm(wall))
            .allowed(format!("less than {}", mm(outside / 2.0)))
            .hint("check the decimal point and the unit of wall and outside_diameter");
    }
    if data.wall_min.value.si() > wall.si() && all(ask, &["wall", "wall_min"]) {
        let key = if ask.has("wall_min") { "wall_min" } else { "wall" };
        let message = format!(
            "the least wall ({}) must not exceed the nominal wall ({})",
            mm(data.wall_min.value),
            mm(wall)
        );
        ask.error("order", key, message)
            .allowed(format!("wall_min at most {}", mm(wall)))
            .hint("give wall and wall_min of the same data sheet");
    }
    let room = outside / 2.0 - wall;
    if errors == ask.errors()
        && data.lining.value.thickness.si() >= room.si()
        && all(ask, &["lining_thickness", "wall", "outside_diameter"])
    {
        ask.error(
            "lining_too_thick",
            "lining_thickness",
            format!("the lining must leave a bore, but is {}", mm(data.lining.value.thickness)),
        )
        .allowed(format!("less than {}", mm(room)))
        .hint("check the unit: a bare number is in mm");
    }
    let barrel = outside + 2.0 * data.coating.value.thickness;
    if let Some(socket) = data.socket_outside_diameter.as_ref().map(|s| s.value)
        && socket.si() < barrel.si()
        && all(ask, &["socket_diameter", "outside_diameter"])
    {
        let key = if ask.has("socket_diameter") { "socket_diameter" } else { "outside_diameter" };
        let message = format!(
            "the socket ({}) must not be narrower than the coated barrel ({})",
            mm(socket),
            mm(barrel)
        );
        ask.error("order", key, message)
            .allowed(format!("socket_diameter at least {}", mm(barrel)))
            .hint("take both from one data sheet; socket_diameter is the outside of the socket");
    }
    if errors != ask.errors() || !whole {
        return None;
    }
    made(ask, data)
}

fn made(ask: &mut Ask<'_, '_, '_>, data: PipeData) -> Option<Pipe> {
    match Pipe::new(data) {
        Ok(pipe) => Some(pipe),
        Err(error) => {
            ask.error(error.code(), "standard", error.to_string())
                .hint("check the dimensions of the pipe");
            None
        }
    }
}

/// Gives the pipe the mass that the file states.
pub(super) fn with_mass(ask: &mut Ask<'_, '_, '_>, pipe: Pipe) -> Option<Pipe> {
    /// A stated mass may differ by this factor from the computed one before it is a mistake.
    const PLAUSIBLE: std::ops::RangeInclusive<f64> = 0.5..=2.0;
    let Some(Given { value: wanted, .. }) = ask.number("mass_per_length") else {
        return Some(pipe);
    };
    let computed = pipe.mass_per_length().si();
    let (found, expected) = (shown(wanted, unit::KG_PER_M), shown(computed, unit::KG_PER_M));
    if !PLAUSIBLE.contains(&(wanted / computed)) {
        let message = format!(
            "mass_per_length of {found} does not go with the dimensions, which give {expected}"
        );
        ask.error("implausible", "mass_per_length", message)
            .found(found)
            .allowed(format!("near {expected}"))
            .hint("check the unit, and diameter, wall and coating");
        return None;
    }
    if (wanted / computed - 1.0).abs() > 0.1 {
        let message = format!("mass_per_length is {found}, the dimensions give {expected}");
        ask.warning("mass_differs", "mass_per_length", message)
            .hint("the given mass is used; check that it includes lining, coating and socket");
    }
    let mut data = pipe.into_data();
    data.stated_mass = Some(Valued::given(MassPerLength::from_si(wanted)));
    made(ask, data)
}
