//! The pipe: a standard's table or own data, with what the data sheet replaces.

use pipe::{
    EN545_MODULUS, IRON_DENSITY, Layer, Nominal, Pipe, PipeData, PipeError, Standard, Valued,
    awwa_pipe, classes_for, en545_pipe, restrained_socket_mass, sizes,
};
use quantity::{Length, Pressure};

use working::{Evidence, Source};

use super::data_sheet::replace;
use super::dimensions::{consistent, with_mass};
use crate::context::Ask;

/// A pipe and the size by which joints of its standard are looked up.
#[derive(Debug)]
pub(super) struct PipeOfFile {
    pub(super) pipe: Pipe,
    pub(super) standard: Standard,
    pub(super) size: u32,
}

/// Dimensions to start from, and whether they are those of the pipe: where its size, class or
/// dimensions are not known, others stand in, so that the rest of the section is looked at too.
struct Base {
    data: PipeData,
    whole: bool,
}

pub(super) fn build(ask: &mut Ask<'_, '_, '_>) -> Option<PipeOfFile> {
    let errors = ask.errors();
    let standard = match ask.word("standard").map(|word| word.value) {
        Some("EN 545") => Some(Standard::En545),
        Some("AWWA C151") => Some(Standard::AwwaC151),
        Some(_) => Some(Standard::Own),
        None => None,
    };
    let size = standard.and_then(|standard| size(ask, standard));
    let base = match standard {
        Some(Standard::Own) => own(ask).map(|data| Base { data, whole: true }),
        Some(standard) => of_table(ask, standard, size),
        None => None,
    };
    let table = base.as_ref().map(|base| base.data.outside_diameter.value);
    let mut base = match base {
        Some(base) => base,
        None => stand_in(standard)?,
    };
    replace(ask, &mut base.data, table);
    let checked = consistent(ask, base.data, base.whole)?;
    let pipe = with_mass(ask, checked)?;
    let standard = standard.filter(|_| ask.errors() == errors)?;
    Some(PipeOfFile { pipe, standard, size: size.unwrap_or(0) })
}

/// Some pipe in place of one that is not known; nothing of it gets into a result.
fn stand_in(standard: Option<Standard>) -> Option<Base> {
    let mut data = en545_pipe(400, "K9").ok()?.into_data();
    data.standard = standard.unwrap_or(Standard::Own);
    Some(Base { data, whole: false })
}

/// The nominal size under the key of the standard.
fn size(ask: &mut Ask<'_, '_, '_>, standard: Standard) -> Option<u32> {
    let (key, other) = match standard {
        Standard::AwwaC151 => ("size", "dn"),
        Standard::En545 | Standard::Own => ("dn", "size"),
    };
    let given = ask.integer(key).map(|g| g.value);
    if standard != Standard::Own {
        let reason = format!("{standard} pipe goes by {key}");
        ask.refuse(other, &reason, &format!("give {key} only"));
        ask.require(key, &format!("by {standard}"));
    }
    given
}

/// A pipe of a standard's table; of another size or class where the file names none that there is.
fn of_table(ask: &mut Ask<'_, '_, '_>, standard: Standard, size: Option<u32>) -> Option<Base> {
    ask.require("class", &format!("by {standard}"));
    let class = ask.text("class").map(|class| class.value);
    let known = sizes(standard).unwrap_or_default();
    let Some(size) = size.filter(|size| known.iter().any(|n| number(n) == Some(*size))) else {
        let near = nearest_sizes(&known, size);
        if let Some(size) = size {
            unknown_size(ask, standard, size, &known, &near);
        }
        let fits = |class: &str| {
            known.iter().filter_map(number).any(|n| table_pipe(standard, n, class).is_ok())
        };
        if let (Some(class), Some(near)) = (&class, near.first().and_then(number))
            && !fits(class)
        {
            unknown_class(ask, standard, near, class);
        }
        return None;
    };
    let class = class?;
    if let Ok(pipe) = table_pipe(standard, size, &class) {
        return Some(Base { data: pipe.into_data(), whole: true });
    }
    unknown_class(ask, standard, size, &class);
    // The outside diameter and the sockets are those of the size, whatever the class.
    let listed = classes_for(standard, size).unwrap_or_default();
    let other = listed.iter().find_map(|class| table_pipe(standard, size, class).ok())?;
    Some(Base { data: other.into_data(), whole: false })
}

/// The sizes below and above one that there is not; all where none was given.
fn nearest_sizes(known: &[Nominal], size: Option<u32>) -> Vec<Nominal> {
    let Some(size) = size else { return known.to_vec() };
    let below = known.iter().rfind(|n| number(n) < Some(size));
    let above = known.iter().find(|n| number(n) > Some(size));
    below.into_iter().chain(above).cloned().collect()
}

fn unknown_size(
    ask: &mut Ask<'_, '_, '_>,
    standard: Standard,
    size: u32,
    known: &[Nominal],
    near: &[Nominal],
) {
    let key = if standard == Standard::AwwaC151 { "size" } else { "dn" };
    let listed = |list: &[Nominal], with: &str| {
        list.iter().map(ToString::to_string).collect::<Vec<_>>().join(with)
    };
    ask.error("unknown_size", key, format!("{standard} has no size {size}"))
        .found(size.to_string())
        .allowed(listed(known, ", "))
        .hint(format!(
            "the nearest sizes are {}; for another pipe write standard = \"own\"",
            listed(near, " and ")
        ));
}

fn unknown_class(ask: &mut Ask<'_, '_, '_>, standard: Standard, size: u32, class: &str) {
    let Err(error) = table_pipe(standard, size, class) else { return };
    let allowed = match &error {
        PipeError::UnknownClass { allowed, .. } => allowed.clone(),
        _ => classes_for(standard, size).unwrap_or_default().join(", "),
    };
    ask.error(error.code(), "class", error.to_string())
        .found(class)
        .allowed(allowed)
        .hint("write one of the classes, or standard = \"own\" with the wall given");
}

fn table_pipe(standard: Standard, size: u32, class: &str) -> Result<Pipe, PipeError> {
    if standard == Standard::En545 {
        return en545_pipe(size, class);
    }
    let bare = class.trim().trim_end_matches("psi").trim_end();
    match bare.parse::<u32>() {
        Ok(psi) => awwa_pipe(size, psi),
        Err(_) => Err(PipeError::UnknownClass {
            standard: standard.name(),
            size: format!("{size} in"),
            found: class.to_owned(),
            allowed: classes_for(standard, size)?.join(", "),
        }),
    }
}

fn number(nominal: &Nominal) -> Option<u32> {
    match nominal {
        Nominal::Dn(n) | Nominal::Inches(n) => Some(*n),
        Nominal::Named(_) => None,
    }
}

/// A pipe of the user's data sheet, as far as no later key replaces a value.
fn own(ask: &mut Ask<'_, '_, '_>) -> Option<PipeData> {
    for key in ["outside_diameter", "wall", "laying_length"] {
        ask.require(key, "with standard = \"own\"");
    }
    let outside = ask.number("outside_diameter");
    let wall = ask.number("wall");
    let length = ask.number("laying_length");
    let class = ask.text("class").map_or_else(|| "own data".to_owned(), |class| class.value);
    let name = match (ask.integer("dn"), ask.integer("size")) {
        (Some(dn), _) => format!("DN {}", dn.value),
        (None, Some(size)) => format!("{} in", size.value),
        (None, None) => class.clone(),
    };
    let (outside, wall, length) = (outside?.value, wall?.value, length?.value);
    let wall_min = own_wall_min(ask, outside, wall)?;
    let mass = restrained_socket_mass(Length::from_si(outside)).ok()?;
    let memory = Evidence::FromMemory;
    Some(PipeData {
        standard: Standard::Own,
        nominal: Nominal::Named(name),
        class,
        outside_diameter: Valued::given(Length::from_si(outside)),
        wall_nominal: Valued::given(Length::from_si(wall)),
        wall_min,
        lining: Valued::from_text(Layer::NONE, "no lining on the data sheet", Evidence::Judgement),
        coating: Valued::given(Layer::NONE),
        laying_length: Valued::given(Length::from_si(length)),
        socket_mass: mass,
        socket_outside_diameter: None,
        joint_protection: Valued::given(Length::ZERO),
        modulus: Valued::from_text(EN545_MODULUS, "EN 545 handbooks", memory),
        iron_density: Valued::from_text(
            IRON_DENSITY,
            "a foundry's summary of EN 545; reproduces published masses",
            Evidence::Published,
        ),
        proof_strength: Valued::from_text(
            Pressure::from_si(270.0e6),
            "EN 545 table 5, the lower of its values",
            memory,
        ),
        stated_mass: None,
        class_pressure: None,
    })
}

/// Least wall of own data: given, or the tolerance of EN 545, 1.3 mm + 0.001 × diameter, off the
/// nominal wall.
fn own_wall_min(ask: &mut Ask<'_, '_, '_>, outside: f64, wall: f64) -> Option<Valued<Length>> {
    let least = wall - 1.3e-3 - 0.001 * outside;
    if least <= 0.0 {
        ask.require("wall_min", "because the wall is thinner than the usual tolerance");
        return ask.number("wall_min").map(|g| Valued::given(Length::from_si(g.value)));
    }
    let given = ask.has("wall_min");
    let value = ask.number_or("wall_min", Some(least))?;
    let source = Source::new("tolerance of EN 545 applied to own data", Evidence::Judgement);
    let source = if given { Source::given() } else { source };
    Some(Valued::new(Length::from_si(value), source))
}
