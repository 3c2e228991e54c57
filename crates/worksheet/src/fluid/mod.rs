//! Drilling fluid and what the ground bears of it.

use ::fluid::{FluidError, Rheology};
use quantity::{Flow, Length, Pressure, unit};
use working::{Evidence, Source};

use crate::definition::{Input, Range, Worksheet};
use crate::run::{Failure, Values};

mod annulus;
mod carrying;
mod depth;
mod elastic;
mod limit;
mod models;
mod movement;
mod regime;
mod returns;
mod rods;
mod stability;
mod stop;
mod strain;
mod volumes;

/// Worksheets of this topic.
pub(crate) static SHEETS: &[&Worksheet] = &[
    &models::FLUID_MODEL,
    &annulus::ANNULUS_LOSS,
    &annulus::SLOT_VELOCITY,
    &annulus::BINGHAM_ASYMPTOTE,
    &annulus::ECCENTRIC_ANNULUS,
    &regime::ANNULUS_REGIME,
    &regime::ANNULUS_EQUAL_PIPE,
    &depth::PRESSURE_AT_DEPTH,
    &rods::ROD_FLOW,
    &rods::NOZZLE_LOSS,
    &stop::RESTART_PRESSURE,
    &stop::RESTART_PRESSURE_RODS,
    &movement::SURGE_VELOCITY,
    &carrying::PARTICLE_SLIP,
    &carrying::TRANSPORT_VELOCITY,
    &volumes::REAM_VOLUME,
    &volumes::REAM_STEPS,
    &volumes::ADVANCE_LIMIT,
    &returns::RETURNS_DENSITY,
    &returns::SOLIDS_FRACTION,
    &limit::LIMIT_PRESSURE,
    &limit::LIMIT_PRESSURE_UNDRAINED,
    &strain::STRAIN_LIMITED_PRESSURE,
    &elastic::TENSILE_LIMIT,
    &elastic::UNDRAINED_YIELD,
    &elastic::ROCK_LIMIT,
    &stability::BORE_SUPPORT,
    &stability::OVERLOAD_NUMBER,
];

const SLOT: Source = Source::new("mechanics of a plane slot, exact", Evidence::Derived);
const API: Source = Source::new("API RP 13D hydraulics equations of May 2002", Evidence::Published);
const LAMINAR_LIMIT: Source =
    Source::new("API RP 13D, lower limit of the transition", Evidence::FromMemory);
const TURBULENT_LIMIT: Source = Source::new(
    "API RP 13D; for n = 0.8 Guo & Liu, Applied Drilling Circulation Systems",
    Evidence::Published,
);
const VOLUMES: Source = Source::new("balance of volumes, exact", Evidence::Derived);
const KIRSCH: Source = Source::new("elastic stresses around a hole", Evidence::Derived);

/// The refusal of a calculation, at the input whose key is the name of the quantity at fault.
fn refused(sheet: &'static Worksheet, error: &FluidError) -> Failure {
    let names = |input: &&Input| Some(input.key.replace('_', " ").as_str()) == error.quantity();
    let key = sheet.inputs.iter().find(names).map_or("", |input| input.key);
    Failure::at(key, error)
}

const HOLE: Input =
    Input::quantity("hole_diameter", "D2", "diameter of the hole", unit::MM, Range::SIZE);
const STRING: Input = Input::quantity(
    "string_diameter",
    "D1",
    "outside diameter of rods or string",
    unit::MM,
    Range::SIZE,
);
const FLOW: Input =
    Input::quantity("flow", "Q", "flow along the annulus", unit::L_PER_MIN, Range::NotNegative);
const YIELD: Input =
    Input::quantity("yield_stress", "tau_y", "yield stress", unit::PA, Range::NotNegative);
const CONSISTENCY: Input = Input::quantity(
    "consistency",
    "K",
    "consistency in Pa·s^n; of a Bingham fluid the plastic viscosity",
    unit::ONE,
    Range::Positive,
);
const INDEX: Input = Input::quantity(
    "flow_index",
    "n",
    "flow index; 1 is a Bingham fluid",
    unit::ONE,
    Range::Above(0.0, 1.5),
);
const DENSITY: Input =
    Input::quantity("density", "rho", "density of the fluid", unit::KG_PER_M3, Range::Positive);

fn length(v: &Values, key: &str) -> Length {
    Length::from_si(v.si(key))
}

fn pressure(v: &Values, key: &str) -> Pressure {
    Pressure::from_si(v.si(key))
}

fn flow(v: &Values) -> Flow {
    Flow::from_si(v.si("flow"))
}

/// Fluid of the three inputs.
fn rheology(v: &Values) -> Result<Rheology, FluidError> {
    Rheology::new(pressure(v, "yield_stress"), v.si("consistency"), v.si("flow_index"))
}
