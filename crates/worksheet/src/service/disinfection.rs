use quantity::{Density, Length, Time, Velocity, Volume, unit};
use service::{
    Dechlorinator, chlorine_mass, dechlorination_mass, flushing_flow, pipe_volume, product_mass,
    slug, solution_volume,
};
use working::{Evidence, Source};

use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const MASS: Source = Source::new("conservation of mass", Evidence::Derived);
const GUIDE: Source = Source::new("AWWA disinfection field guide", Evidence::Published);
static THREE_HOURS: Source =
    Source::new("AWWA disinfection field guide: at least 3 h at every point", Evidence::Published);

/// A dose in kg/m3; strong slugs have 0.1, and above 1 milligrams were written without a unit. Judgement.
const DOSE: Range = Range::Above(0.0, 1.0);

const INSIDE: Input =
    Input::quantity("inside_diameter", "D", "inside diameter", unit::MM, Range::SIZE);
const LENGTH: Input =
    Input::quantity("length", "L", "length of the main", unit::M, Range::Positive);

pub(super) static CHLORINE: Worksheet = Worksheet {
    id: "chlorine",
    title: "chlorine and product that bring a main to a dose",
    inputs: &[
        INSIDE,
        LENGTH,
        Input::quantity("dose", "c", "dose of free chlorine", unit::MG_PER_L, DOSE),
        Input::quantity(
            "available_fraction",
            "f",
            "available chlorine in the product, by mass",
            unit::PERCENT,
            Range::Within(1e-6, 1.0),
        ),
    ],
    outputs: &[
        Output::new("volume", "volume of the main", unit::M3),
        Output::new("product_mass", "mass of product", unit::KG),
        Output::new("chlorine_mass", "mass of chlorine", unit::KG),
    ],
    source: MASS,
    example: &[
        ("inside_diameter", "201.4 mm"),
        ("length", "350 m"),
        ("dose", "25 mg/l"),
        ("available_fraction", "65 %"),
    ],
    run: run_chlorine,
};

pub(super) static CHLORINE_SOLUTION: Worksheet = Worksheet {
    id: "chlorine-solution",
    title: "volume of a chlorine solution that brings a main to a dose",
    inputs: &[
        INSIDE,
        LENGTH,
        Input::quantity("dose", "c", "dose of free chlorine", unit::MG_PER_L, DOSE),
        Input::quantity(
            "strength",
            "k",
            "chlorine in the solution; 1 % holds 10 g/l",
            unit::G_PER_L,
            Range::Positive,
        ),
    ],
    outputs: &[
        Output::new("chlorine_mass", "mass of chlorine", unit::KG),
        Output::new("solution", "volume of the solution", unit::L),
    ],
    source: MASS,
    example: &[
        ("inside_diameter", "201.4 mm"),
        ("length", "350 m"),
        ("dose", "25 mg/l"),
        ("strength", "100 g/l"),
    ],
    run: run_solution,
};

pub(super) static SLUG: Worksheet = Worksheet {
    id: "slug",
    title: "slug of chlorinated water that travels through a main",
    inputs: &[
        INSIDE,
        LENGTH,
        Input::quantity(
            "fraction",
            "f",
            "share of the main that the slug fills",
            unit::PERCENT,
            Range::Within(1e-6, 1.0),
        ),
        Input::quantity("contact_time", "t_c", "contact time", unit::H, Range::Positive)
            .or("3 h", &THREE_HOURS),
    ],
    outputs: &[
        Output::new("volume", "volume of the slug", unit::L),
        Output::new("flow", "flow to draw off", unit::L_PER_MIN),
        Output::new("time", "time until the slug has passed", unit::H),
    ],
    source: GUIDE,
    example: &[("inside_diameter", "500 mm"), ("length", "1000 m"), ("fraction", "20 %")],
    run: run_slug,
};

pub(super) static DECHLORINATION: Worksheet = Worksheet {
    id: "dechlorination",
    title: "chemical that takes residual chlorine out of water",
    inputs: &[
        Input::quantity("volume", "V", "volume of water", unit::M3, Range::Positive),
        Input::quantity("residual", "c", "residual chlorine", unit::MG_PER_L, Range::NotNegative),
        Input::choice(
            "chemical",
            "the chemical",
            &[
                "sodium-bisulfite",
                "sodium-metabisulfite",
                "sodium-sulfite",
                "sodium-thiosulfate",
                "calcium-thiosulfate",
                "ascorbic-acid",
                "sodium-ascorbate",
            ],
        ),
    ],
    outputs: &[Output::new("mass", "mass of chemical", unit::KG)],
    source: GUIDE,
    example: &[("volume", "100 m3"), ("residual", "1 mg/l"), ("chemical", "sodium-thiosulfate")],
    run: run_dechlorination,
};

pub(super) static FLUSHING: Worksheet = Worksheet {
    id: "flushing",
    title: "flow that flushes a main at a velocity",
    inputs: &[INSIDE, Input::quantity("velocity", "v", "velocity", unit::M_PER_S, Range::Positive)],
    outputs: &[Output::new("flow", "flow", unit::L_PER_S)],
    source: Source::new("continuity", Evidence::Derived),
    example: &[("inside_diameter", "201.4 mm"), ("velocity", "0.914 m/s")],
    run: run_flushing,
};

fn main_volume(v: &Values) -> Result<Volume, Failure> {
    let d = Length::from_si(v.si("inside_diameter"));
    pipe_volume(d, Length::from_si(v.si("length"))).map_err(|e| Failure::at("", e))
}

fn run_chlorine(v: &Values) -> Result<Sheet, Failure> {
    let volume = main_volume(v)?;
    let refused = |e| Failure::at("", e);
    let chlorine = chlorine_mass(volume, Density::from_si(v.si("dose"))).map_err(refused)?;
    let product = product_mass(chlorine, v.si("available_fraction")).map_err(refused)?;
    let mut s = v.open();
    let (volume, chlorine, product) = (volume.si(), chlorine.si(), product.si());
    s.result("V", "volume of the main", "pi/4*D^2*L", volume, unit::M3, MASS);
    s.result("m", "mass of chlorine", "V*c", chlorine, unit::KG, MASS);
    s.result("m_p", "mass of product", "m/f", product, unit::KG, MASS);
    Ok(Sheet::new(&[("volume", volume), ("product_mass", product), ("chlorine_mass", chlorine)], s))
}

fn run_solution(v: &Values) -> Result<Sheet, Failure> {
    let volume = main_volume(v)?;
    let refused = |e| Failure::at("", e);
    let chlorine = chlorine_mass(volume, Density::from_si(v.si("dose"))).map_err(refused)?;
    let solution = solution_volume(chlorine, Density::from_si(v.si("strength")));
    let (solution, chlorine) = (solution.map_err(refused)?.si(), chlorine.si());
    let mut s = v.open();
    s.result("V", "volume of the main", "pi/4*D^2*L", volume.si(), unit::M3, MASS);
    s.result("m", "mass of chlorine", "V*c", chlorine, unit::KG, MASS);
    s.result("V_s", "volume of the solution", "m/k", solution, unit::L, MASS);
    Ok(Sheet::new(&[("chlorine_mass", chlorine), ("solution", solution)], s))
}

fn run_slug(v: &Values) -> Result<Sheet, Failure> {
    let volume = main_volume(v)?;
    let time = Time::from_si(v.si("contact_time"));
    let result = slug(volume, v.si("fraction"), time).map_err(|e| Failure::at("", e))?;
    let mut s = v.open();
    s.result("V", "volume of the main", "pi/4*D^2*L", volume.si(), unit::M3, MASS);
    s.result("V_s", "volume of the slug", "f*V", result.volume.si(), unit::L, GUIDE);
    s.result("Q", "flow to draw off", "V_s/t_c", result.flow.si(), unit::L_PER_MIN, GUIDE);
    s.result("t", "time until it has passed", "V/Q", result.time.si(), unit::H, GUIDE);
    Ok(Sheet::new(
        &[("volume", result.volume.si()), ("flow", result.flow.si()), ("time", result.time.si())],
        s,
    ))
}

fn run_dechlorination(v: &Values) -> Result<Sheet, Failure> {
    let chemical = Dechlorinator::find(v.word("chemical"))
        .ok_or_else(|| Failure::at("chemical", "is not in the table of doses"))?;
    let volume = Volume::from_si(v.si("volume"));
    let residual = Density::from_si(v.si("residual"));
    let mass = dechlorination_mass(volume, residual, chemical);
    let mass = mass.map_err(|e| Failure::at("", e))?.si();
    let mut s = v.open();
    s.given_from("d", "dose, mass per mass of chlorine", chemical.dose(), unit::ONE, GUIDE);
    s.result("m", "mass of chemical", "V*c*d", mass, unit::KG, GUIDE);
    Ok(Sheet::new(&[("mass", mass)], s))
}

fn run_flushing(v: &Values) -> Result<Sheet, Failure> {
    let d = Length::from_si(v.si("inside_diameter"));
    let flow = flushing_flow(d, Velocity::from_si(v.si("velocity")));
    let flow = flow.map_err(|e| Failure::at("", e))?.si();
    let mut s = v.open();
    let continuity = Source::new("continuity", Evidence::Derived);
    s.result("Q", "flow", "pi/4*D^2*v", flow, unit::L_PER_S, continuity);
    Ok(Sheet::new(&[("flow", flow)], s))
}
