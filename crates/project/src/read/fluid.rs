//! The drilling fluid.

use quantity::{Density, Pressure, Viscosity, Volume, unit};

use crate::context::{Ask, Context};
use crate::model::{Fluid, FluidModel, Readings};
use crate::tree::Tree;
use crate::wording::shown;

pub(super) fn build(tree: &Tree, cx: &mut Context<'_>) -> Option<Fluid> {
    let record = tree.one("fluid.readings")?;
    let given = record.present;
    let readings = readings(&mut cx.ask(record));
    let mut ask = cx.ask(tree.one("fluid")?);
    let density = ask.number_or_default("density");
    let surplus = ask.number_or_default("excess_pressure");
    let gel = ask.number("gel_strength");
    let fresh = ask.number_or_default("fresh_density");
    if let Some((pumped, returned)) = fresh.zip(density) {
        check_densities(&mut ask, pumped, returned);
    }
    let model = ask.word_or_default("model");
    let eccentricity = ask.number_or_default("eccentricity");
    let dose = ask.number("bentonite_dose");
    let tanker = ask.number_or_default("tanker_volume");
    let bingham = bingham(&mut ask, given, model);
    Some(Fluid {
        density: Density::from_si(density?),
        excess_pressure: Pressure::from_si(surplus?),
        gel_strength: gel.map(|g| Pressure::from_si(g.value)),
        readings,
        bingham,
        model: match model? {
            "bingham" => FluidModel::Bingham,
            "power-law" => FluidModel::PowerLaw,
            "herschel-bulkley" => FluidModel::HerschelBulkley,
            _ => FluidModel::Largest,
        },
        eccentricity: eccentricity?,
        fresh_density: Density::from_si(fresh?),
        bentonite_dose: dose.map(|g| Density::from_si(g.value)),
        tanker_volume: Volume::from_si(tanker?),
    })
}

/// Warns of returns lighter than what was pumped: cuttings add weight.
fn check_densities(ask: &mut Ask<'_, '_, '_>, fresh: f64, density: f64) {
    if fresh <= density {
        return;
    }
    let key = if ask.has("fresh_density") { "fresh_density" } else { "density" };
    let (fresh, density) = (shown(fresh, unit::KG_PER_M3), shown(density, unit::KG_PER_M3));
    let message = format!("fresh_density ({fresh}) is greater than density ({density})");
    let (found, allowed) = if key == "density" {
        (density, format!("usually at least {fresh}"))
    } else {
        (fresh, format!("usually at most {density}"))
    };
    ask.warning("unusual", key, message)
        .found(found)
        .allowed(allowed)
        .hint("the fluid in the bore carries cuttings, which add weight to it");
}

/// Plastic viscosity and yield point, which stand in for readings.
fn bingham(
    ask: &mut Ask<'_, '_, '_>,
    readings: bool,
    model: Option<&str>,
) -> Option<(Viscosity, Pressure)> {
    const BOTH: [&str; 2] = ["plastic_viscosity", "yield_point"];
    if readings {
        for key in BOTH {
            ask.refuse(key, "dial readings are given", "take it out, or take [fluid.readings] out");
        }
        return None;
    }
    if BOTH.map(|key| ask.has(key)).contains(&true) {
        BOTH.iter().for_each(|key| ask.require(key, "beside the other value of the Bingham model"));
        if let Some(word @ ("power-law" | "herschel-bulkley")) = model {
            let message = format!("model \"{word}\" needs dial readings, but none are given");
            ask.error("conflict", "model", message)
                .hint("write model = \"bingham\", or give [fluid.readings]");
        }
    }
    let [viscosity, point] = BOTH.map(|key| ask.number(key).map(|g| g.value));
    Some((Viscosity::from_si(viscosity?), Pressure::from_si(point?)))
}

/// Dial readings; they rise with the speed in every fluid.
fn readings(ask: &mut Ask<'_, '_, '_>) -> Option<Readings> {
    const BY_SPEED: [&str; 6] = ["r3", "r6", "r100", "r200", "r300", "r600"];
    let all = BY_SPEED.map(|key| ask.number(key).map(|g| g.value));
    let given = BY_SPEED.iter().zip(all).filter_map(|(key, value)| Some((*key, value?)));
    let given: Vec<_> = given.collect();
    for pair in given.windows(2) {
        if let [(slow, low), (fast, high)] = pair
            && (high < low || (*fast == "r600" && high <= low))
        {
            // Of r600 and r300 the difference is the plastic viscosity, which cannot be zero.
            let least = if *fast == "r600" { "greater than" } else { "at least" };
            let (low, high) = (shown(*low, unit::ONE), shown(*high, unit::ONE));
            let message = format!("{fast} must be {least} {slow} ({low}), but was {high}");
            ask.error("not_rising", fast, message)
                .found(high)
                .allowed(format!("{least} {low}"))
                .hint("a faster bob never reads less: check for readings that were swapped");
        }
    }
    let [r3, r6, r100, r200, r300, r600] = all;
    Some(Readings { r600: r600?, r300: r300?, r200, r100, r6, r3 })
}
