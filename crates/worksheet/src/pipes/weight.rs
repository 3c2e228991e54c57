use pipe::{WATER_DENSITY, net_weight, neutral_fill};
use quantity::{Area, Density, GRAVITY, MassPerLength, show, unit};
use working::{Evidence, Source};

use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const EXACT: Source = Source::new("hydrostatics", Evidence::Derived);
static FRESH_WATER: Source = Source::new("fresh water", Evidence::CommonPractice);

/// Word for an output whose input is missing.
const NOT_ASSESSED: &str = "not assessed";

pub(super) static NET_WEIGHT: Worksheet = Worksheet {
    id: "net-weight",
    title: "net weight of a pipe in fluid, and its neutral fill",
    inputs: &[
        Input::quantity(
            "outside_diameter",
            "D",
            "outside diameter with coating",
            unit::MM,
            Range::SIZE,
        ),
        Input::quantity(
            "mass_per_length",
            "m",
            "mass of the empty pipe per length",
            unit::KG_PER_M,
            Range::Positive,
        ),
        Input::quantity(
            "fluid_density",
            "rho_f",
            "density of the fluid around it",
            unit::KG_PER_M3,
            Range::Positive,
        ),
        Input::choice("inside", "what is inside", &["empty", "water"]),
        Input::quantity(
            "inside_diameter",
            "D_i",
            "inside diameter; needed for inside=water and for the neutral fill",
            unit::MM,
            Range::SIZE,
        )
        .optional(),
        Input::quantity(
            "water_density",
            "rho_w",
            "density of the water inside",
            unit::KG_PER_M3,
            Range::Positive,
        )
        .or("1000 kg/m3", &FRESH_WATER),
    ],
    outputs: &[
        Output::new("net_weight", "net weight per length; positive sinks", unit::N_PER_M),
        Output::new("net_mass", "the same as a mass per length", unit::KG_PER_M),
        Output::new("neutral_density", "fluid in which the empty pipe floats", unit::KG_PER_M3),
        Output::new(
            "neutral_fill",
            "share of the bore with water at which the weight vanishes; zero or less: the empty \
             pipe does not float; above one: it floats when full; a word without inside_diameter",
            unit::ONE,
        ),
    ],
    source: Source::new("hydrostatics, exact", Evidence::Derived),
    example: &[
        ("outside_diameter", "635 mm"),
        ("mass_per_length", "159.1 kg/m"),
        ("fluid_density", "1100 kg/m3"),
        ("inside", "water"),
        ("inside_diameter", "605.2 mm"),
    ],
    run: run_net_weight,
};

fn run_net_weight(v: &Values) -> Result<Sheet, Failure> {
    let circle = |d: f64| Area::from_si(std::f64::consts::PI / 4.0 * d * d);
    let outside = v.si("outside_diameter");
    let mass = MassPerLength::from_si(v.si("mass_per_length"));
    let fluid = Density::from_si(v.si("fluid_density"));
    let water = Density::from_si(v.optional("water_density").unwrap_or(WATER_DENSITY.si()));
    let is_full = v.word("inside") == "water";
    let inside = match v.optional("inside_diameter") {
        Some(d) if d < outside => Some(d),
        Some(_) => {
            let limit = show(outside, unit::MM);
            let message = format!("must be less than outside_diameter ({limit})");
            return Err(Failure::at("inside_diameter", message));
        }
        None if is_full => Some(v.needed("inside_diameter", "for inside=water")?),
        None => None,
    };
    let displaced = circle(outside);
    let water_area = match inside {
        Some(d) if is_full => circle(d),
        _ => Area::ZERO,
    };
    let refused = |e| Failure::at("", e);
    let w = net_weight(mass, displaced, fluid, water_area, water).map_err(refused)?.si();
    let mut s = v.open();
    s.given_from(
        "g",
        "acceleration of gravity",
        GRAVITY,
        unit::ONE,
        Source::new("ISO 80000-3, m/s2", Evidence::Published),
    );
    s.derive("A_d", "area displaced", "pi/4*D^2", unit::M2, EXACT);
    s.derive("m_d", "fluid displaced", "rho_f*A_d", unit::KG_PER_M, EXACT);
    let expression = if is_full {
        s.derive("A_w", "area of water inside", "pi/4*D_i^2", unit::M2, EXACT);
        "g*(m + rho_w*A_w - rho_f*A_d)"
    } else {
        "g*(m - rho_f*A_d)"
    };
    s.result("w", "net weight", expression, w, unit::N_PER_M, EXACT);
    let net_mass = s.derive("m_net", "net mass", "w/g", unit::KG_PER_M, EXACT);
    let neutral_density =
        s.derive("rho_0", "neutral fluid density, empty", "m/A_d", unit::KG_PER_M3, EXACT);
    let mut outputs =
        vec![("net_weight", w), ("net_mass", net_mass), ("neutral_density", neutral_density)];
    let Some(d) = inside else {
        return Ok(Sheet::new(&outputs, s).with_word("neutral_fill", NOT_ASSESSED));
    };
    let fill = neutral_fill(mass, displaced, fluid, circle(d), water).map_err(refused)?;
    let expression = "(rho_f*A_d - m)/(rho_w*pi/4*D_i^2)";
    s.result("phi", "neutral fill", expression, fill, unit::ONE, EXACT);
    outputs.push(("neutral_fill", fill));
    Ok(Sheet::new(&outputs, s))
}
