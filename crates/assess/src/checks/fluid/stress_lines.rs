//! How the stresses at a place were obtained, line by line.

use ground::Soil;
use quantity::{Length, unit};
use working::{Builder, Evidence, Source};

use crate::context::Context;
use crate::ground_and_fluid::{BorePlace, Places};
use crate::quoted::from_ground;

pub(super) const STATICS: Source =
    Source::new("weight of ground and water above", Evidence::Derived);
const STRATA: Source = Source::new("strata of the borings", Evidence::Given);

/// Where a value of a soil comes from.
pub(super) fn of_soil(c: &Context<'_>, soil: &Soil, key: &str) -> Source {
    let soils = c.project.strata.as_ref().map_or(&[][..], |m| m.soils());
    let index = soils.iter().position(|s| s.name == soil.name).unwrap_or(0);
    c.project.source_of(&format!("/ground/soil/{index}/{key}"))
}

/// Weight and water above the place, layer by layer.
pub(super) fn stress_lines(
    c: &Context<'_>,
    places: &Places<'_>,
    at: &BorePlace,
    soil: &Soil,
    w: &mut Builder,
) {
    let s = &at.stress;
    let water = Source::new("fresh water, rounded, at standard gravity", Evidence::CommonPractice);
    let gamma_w = pipe::WATER_DENSITY.si() * quantity::GRAVITY;
    w.given_from("gamma_w", "unit weight of water", gamma_w, unit::KN_PER_M3, water);
    let free = (at.water_level - at.ground_level).max(Length::ZERO);
    from_ground(w, "h_w", "free water above the ground line", free.si(), unit::M);
    let column = places.model.column(at.chainage, at.ground_level);
    let mut sum = vec!["gamma_w*h_w".to_owned()];
    let mut add =
        |w: &mut Builder, soil: &Soil, key: &str, weight: f64, height: f64, what: &str| {
            if height > 0.0 {
                let k = sum.len();
                let (gamma, h) = (format!("gamma_{k}"), format!("h_{k}"));
                let meaning = format!("unit weight of {}{what}", soil.name);
                w.given_from(&gamma, &meaning, weight, unit::KN_PER_M3, of_soil(c, soil, key));
                w.found(
                    &h,
                    "its thickness above the axis",
                    "borings, joined by straight lines",
                    height,
                    unit::M,
                    STRATA,
                );
                sum.push(format!("{gamma}*{h}"));
            }
        };
    let (axis, water_level) = (at.level.si(), at.water_level.si());
    for layer in column.layers.iter().filter(|l| l.top > axis) {
        let Some(soil) = places.model.soils().get(layer.soil) else { continue };
        let base = layer.base.max(axis);
        let dry = (layer.top - base.max(water_level)).max(0.0);
        add(w, soil, "unit_weight", soil.unit_weight.si(), dry, ", above the water");
        let wet = layer.top - base - dry;
        add(w, soil, "saturated_unit_weight", soil.saturated_unit_weight.si(), wet, ", saturated");
    }
    let formula = sum.join(" + ");
    w.result(
        "sigma_v",
        "total vertical stress",
        &formula,
        s.total_vertical.si(),
        unit::KPA,
        STATICS,
    );
    let head = soil.piezometric_level.unwrap_or(at.water_level);
    let meaning = if soil.piezometric_level.is_some() {
        "piezometric level of the soil"
    } else {
        "water level here"
    };
    w.given_from(
        "z_w",
        meaning,
        head.si(),
        unit::M,
        Source::new("levels of site, borings and soil", Evidence::Given),
    );
    w.result(
        "u",
        "pressure of the water in the ground",
        "gamma_w*max(z_w - z, 0)",
        s.pore.si(),
        unit::KPA,
        STATICS,
    );
    w.result(
        "sigma_e",
        "effective vertical stress",
        "sigma_v - u",
        s.effective_vertical.si(),
        unit::KPA,
        STATICS,
    );
    w.given_from(
        "K_0",
        "horizontal over vertical stress at rest",
        soil.k0,
        unit::ONE,
        of_soil(c, soil, "k0"),
    );
    w.derive(
        "sigma_0",
        "mean effective stress across the bore",
        "(1 + K_0)/2*sigma_e",
        unit::KPA,
        STATICS,
    );
}
