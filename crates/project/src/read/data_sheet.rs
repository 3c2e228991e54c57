//! What a data sheet replaces in the values of a standard.

use pipe::{CoatingKind, Layer, PipeData, Standard, Valued, coating};
use quantity::{Density, Length, Mass};
use working::{Evidence, Source};

use super::plausible;
use crate::context::Ask;
use crate::given::Given;

/// Puts what the file gives in place of the table's values, and lists what stays.
///
/// `table` is the outside diameter of the pipe's size; `None` where the size is not known and
/// another pipe stands in.
pub(super) fn replace(ask: &mut Ask<'_, '_, '_>, data: &mut PipeData, table: Option<Length>) {
    let own = data.standard == Standard::Own;
    if !own {
        if let Some(table) = table {
            plausible::outside_diameter(ask, table);
        }
        for (key, slot) in [
            ("outside_diameter", &mut data.outside_diameter),
            ("wall", &mut data.wall_nominal),
            ("wall_min", &mut data.wall_min),
        ] {
            if let Some(given) = ask.number(key) {
                *slot = Valued::given(Length::from_si(given.value));
            }
        }
        length(ask, "laying_length", &mut data.laying_length);
    }
    lining(ask, &mut data.lining);
    coat(ask, &mut data.coating);
    match (&mut data.socket_outside_diameter, own) {
        (Some(slot), false) => length(ask, "socket_diameter", slot),
        (slot, _) => {
            let given = ask.number("socket_diameter");
            *slot = given.map(|g| Valued::given(Length::from_si(g.value)));
        }
    }
    let protection_given = ask.has("protection");
    if let Some(value) = ask.number_or_default("protection") {
        let value = Length::from_si(value);
        data.joint_protection = if protection_given {
            Valued::given(value)
        } else {
            let text = "upper end of an allowance of 10 to 25 mm on the diameter";
            Valued::from_text(value, text, Evidence::Judgement)
        };
    }
    let usual = (data.socket_mass.value.si(), data.socket_mass.source.clone());
    let given = ask.has("socket_mass");
    // With the whole mass given, nobody needs to know how much of it an unknown socket has.
    if (given || !ask.has("mass_per_length"))
        && let Some(value) = ask.number_or_from("socket_mass", Some(usual))
        && given
    {
        if !own {
            plausible::socket_mass(ask, value);
        }
        data.socket_mass = Valued::given(Mass::from_si(value));
    }
}

fn length(ask: &mut Ask<'_, '_, '_>, key: &str, slot: &mut Valued<Length>) {
    let table = (slot.value.si(), slot.source.clone());
    let given = ask.has(key);
    if let Some(value) = ask.number_or_from(key, Some(table))
        && given
    {
        *slot = Valued::given(Length::from_si(value));
    }
}

fn lining(ask: &mut Ask<'_, '_, '_>, slot: &mut Valued<Layer>) {
    /// Cement mortar; from memory.
    const MORTAR: f64 = 2400.0;
    let table = (slot.value.thickness.si(), slot.source.clone());
    let given = ask.has("lining_thickness");
    if let Some(value) = ask.number_or_from("lining_thickness", Some(table))
        && given
    {
        let layer = Layer { thickness: Length::from_si(value), density: Density::from_si(MORTAR) };
        let source = "given thickness; cement mortar 2400 kg/m3 from memory".to_owned();
        *slot = Valued::new(layer, Source::owned(source, Evidence::FromMemory));
    }
}

fn coat(ask: &mut Ask<'_, '_, '_>, slot: &mut Valued<Layer>) {
    let Some(Given { value: word, .. }) = ask.word("coating") else {
        ask.has("coating_thickness");
        ask.has("coating_density");
        return;
    };
    let kind = match word {
        "fibre mortar" => Some(CoatingKind::FibreMortar),
        "polyethylene" => Some(CoatingKind::Polyethylene),
        "polyurethane" => Some(CoatingKind::Polyurethane),
        "zinc and finishing layer" => Some(CoatingKind::ZincAndFinish),
        _ => None,
    };
    let Some(kind) = kind else {
        for key in ["coating_thickness", "coating_density"] {
            ask.refuse(key, "coating is \"none\"", "take it out, or name the coating");
        }
        *slot = Valued::given(Layer::NONE);
        return;
    };
    if !kind.is_for_pulling() {
        ask.warning(
            "coating_not_for_pulling",
            "coating",
            format!("\"{word}\" is not made for pulling in"),
        )
        .allowed("fibre mortar, polyethylene, polyurethane")
        .hint("choose a coating that bears the bore wall, or protect the pipe otherwise");
    }
    let usual = coating(kind);
    let both_given = ask.has("coating_thickness") && ask.has("coating_density");
    let thickness = ask.number_or_from(
        "coating_thickness",
        Some((usual.value.thickness.si(), usual.source.clone())),
    );
    // A layer that is not counted has no density worth listing.
    let density = if usual.value.density.si() > 0.0 || ask.has("coating_density") {
        let density = (usual.value.density.si(), usual.source.clone());
        ask.number_or_from("coating_density", Some(density))
    } else {
        Some(0.0)
    };
    if let (Some(thickness), Some(density)) = (thickness, density) {
        let layer =
            Layer { thickness: Length::from_si(thickness), density: Density::from_si(density) };
        let source = if both_given { Source::given() } else { usual.source };
        *slot = Valued::new(layer, source);
    }
}
