use pipe::EN545_MODULUS;
use quantity::{Length, Pressure, Volume, unit};
use service::{
    Surge, WATER_MODULUS, air_volume_change, elastic_volume, makeup_c600, system_test_pressure,
    tolerated_free_air,
};
use working::{Builder, Evidence, Source};

use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const RULE: Source =
    Source::new("EN 805:2000 clause 11, read in a network standard", Evidence::Published);
const LOSS: Source = Source::new("EN 805:2000, 11.3.3.3 and 11.3.3.4", Evidence::FromMemory);
const AIR: Source = Source::new("EN 805 air check and Boyle's law", Evidence::Derived);
const BOYLE: Source = Source::new("Boyle's law", Evidence::Derived);
const C600: Source =
    Source::new("ANSI/AWWA C600, as several specifications print it", Evidence::Published);
const MODULI: Source = Source::new("handbook values", Evidence::FromMemory);
static MAIN_TEST: Source =
    Source::new("EN 805, main test; 1.5 in the air check", Evidence::FromMemory);
static ONE_BAR: Source =
    Source::new("atmosphere near sea level, rounded", Evidence::CommonPractice);

const INSIDE: Input =
    Input::quantity("inside_diameter", "D", "inside diameter", unit::MM, Range::SIZE);
const WALL: Input = Input::quantity("wall", "e", "wall of the iron", unit::MM, Range::SIZE);
const LENGTH: Input =
    Input::quantity("length", "L", "length of the section", unit::M, Range::Positive);

pub(super) static TEST_PRESSURE: Worksheet = Worksheet {
    id: "test-pressure-en805",
    title: "system test pressure of a water main (EN 805)",
    inputs: &[
        Input::quantity("mdp", "MDP", "maximum design pressure", unit::BAR, Range::Positive),
        Input::choice(
            "surge",
            "whether surge was calculated or an allowance stands for it",
            &["calculated", "allowance"],
        ),
    ],
    outputs: &[Output::new("stp", "system test pressure at the lowest point", unit::BAR)],
    source: RULE,
    example: &[("mdp", "10 bar"), ("surge", "allowance")],
    run: run_pressure,
};

pub(super) static TEST_LOSS: Worksheet = Worksheet {
    id: "test-loss-en805",
    title: "water that a pressure change moves in a main (EN 805)",
    inputs: &[
        INSIDE,
        WALL,
        LENGTH,
        Input::quantity(
            "pressure_change",
            "dp",
            "change of pressure, 20 kPa in the main test",
            unit::KPA,
            Range::NotNegative,
        ),
        Input::quantity("factor", "a", "allowance for residual air", unit::ONE, Range::Positive)
            .or("1.2", &MAIN_TEST),
    ],
    outputs: &[Output::new("volume", "allowed loss, or volume to draw off", unit::L)],
    source: LOSS,
    example: &[
        ("inside_diameter", "209.4 mm"),
        ("wall", "6.3 mm"),
        ("length", "500 m"),
        ("pressure_change", "20 kPa"),
    ],
    run: run_loss,
};

pub(super) static FREE_AIR: Worksheet = Worksheet {
    id: "free-air",
    title: "free air that the air check of EN 805 just tolerates",
    inputs: &[
        INSIDE,
        WALL,
        Input::quantity("pressure_from", "p1", "absolute, before", unit::BAR, Range::Positive),
        Input::quantity("pressure_to", "p2", "absolute, after", unit::BAR, Range::Positive),
        Input::quantity("atmosphere", "p0", "atmospheric pressure", unit::BAR, Range::Positive)
            .or("1 bar", &ONE_BAR),
    ],
    outputs: &[Output::new(
        "share",
        "air at atmospheric pressure, share of the pipe's volume",
        unit::PERCENT,
    )],
    source: AIR,
    example: &[
        ("inside_diameter", "311.6 mm"),
        ("wall", "7.2 mm"),
        ("pressure_from", "16 bar"),
        ("pressure_to", "15 bar"),
    ],
    run: run_air,
};

pub(super) static AIR_VOLUME: Worksheet = Worksheet {
    id: "air-volume",
    title: "volume by which free air in a main gives way to pressure",
    inputs: &[
        Input::quantity(
            "free_air",
            "V_a",
            "volume of the air at atmospheric pressure",
            unit::L,
            Range::NotNegative,
        ),
        Input::quantity("pressure_from", "p1", "absolute, before", unit::BAR, Range::Positive),
        Input::quantity("pressure_to", "p2", "absolute, after", unit::BAR, Range::Positive),
        Input::quantity("atmosphere", "p0", "atmospheric pressure", unit::BAR, Range::Positive)
            .or("1 bar", &ONE_BAR),
    ],
    outputs: &[Output::new("change", "growth of the air, negative when compressed", unit::L)],
    source: BOYLE,
    example: &[("free_air", "763 l"), ("pressure_from", "16 bar"), ("pressure_to", "15 bar")],
    run: run_air_volume,
};

pub(super) static MAKEUP_C600: Worksheet = Worksheet {
    id: "makeup-c600",
    title: "make-up water that keeps the test pressure (AWWA C600)",
    inputs: &[
        LENGTH,
        Input::quantity("nominal_diameter", "D", "nominal diameter", unit::INCH, Range::Positive),
        Input::quantity(
            "test_pressure",
            "P",
            "average test pressure",
            unit::PSI,
            Range::NotNegative,
        ),
    ],
    outputs: &[Output::new("flow", "make-up water", unit::L_PER_H)],
    source: C600,
    example: &[("length", "1000 ft"), ("nominal_diameter", "8 in"), ("test_pressure", "150 psi")],
    run: run_makeup,
};

fn run_pressure(v: &Values) -> Result<Sheet, Failure> {
    let (surge, formula) = match v.word("surge") {
        "calculated" => (Surge::Calculated, "MDP + 100e3"),
        _ => (Surge::Allowance, "min(1.5*MDP, MDP + 500e3)"),
    };
    let stp = system_test_pressure(Pressure::from_si(v.si("mdp")), surge);
    let stp = stp.map_err(|e| Failure::at("mdp", e))?.si();
    let mut s = v.open();
    s.result("STP", "system test pressure", formula, stp, unit::BAR, RULE);
    Ok(Sheet::new(&[("stp", stp)], s))
}

fn moduli(s: &mut Builder) {
    s.given_from("E_w", "bulk modulus of water", WATER_MODULUS.si(), unit::GPA, MODULI);
    s.given_from("E_R", "modulus of the iron", EN545_MODULUS.si(), unit::GPA, MODULI);
}

fn run_loss(v: &Values) -> Result<Sheet, Failure> {
    let loss = elastic_volume(
        Length::from_si(v.si("inside_diameter")),
        Length::from_si(v.si("wall")),
        Length::from_si(v.si("length")),
        Pressure::from_si(v.si("pressure_change")),
        v.si("factor"),
    )
    .map_err(|e| Failure::at("", e))?
    .si();
    let mut s = v.open();
    moduli(&mut s);
    s.derive("V", "volume of the section", "pi/4*D^2*L", unit::M3, LOSS);
    let formula = "a*V*dp*(1/E_w + D/(e*E_R))";
    s.result("dV", "volume of water", formula, loss, unit::L, LOSS);
    Ok(Sheet::new(&[("volume", loss)], s))
}

fn run_air(v: &Values) -> Result<Sheet, Failure> {
    let share = tolerated_free_air(
        Length::from_si(v.si("inside_diameter")),
        Length::from_si(v.si("wall")),
        Pressure::from_si(v.si("pressure_from")),
        Pressure::from_si(v.si("pressure_to")),
        Pressure::from_si(v.si("atmosphere")),
    )
    .map_err(|e| Failure::at("pressure_to", e))?;
    let mut s = v.open();
    moduli(&mut s);
    s.derive("C", "compressibility", "(p1 - p2)*(1/E_w + D/(e*E_R))", unit::ONE, LOSS);
    let formula = "(1.5 - 1)*C/(p0*(1/p2 - 1/p1))";
    s.result("x", "free air tolerated", formula, share, unit::PERCENT, AIR);
    Ok(Sheet::new(&[("share", share)], s))
}

fn run_air_volume(v: &Values) -> Result<Sheet, Failure> {
    let change = air_volume_change(
        Volume::from_si(v.si("free_air")),
        Pressure::from_si(v.si("pressure_from")),
        Pressure::from_si(v.si("pressure_to")),
        Pressure::from_si(v.si("atmosphere")),
    )
    .map_err(|e| Failure::at("", e))?
    .si();
    let mut s = v.open();
    let formula = "V_a*p0*(1/p2 - 1/p1)";
    s.result("dV", "growth of the air", formula, change, unit::L, BOYLE);
    Ok(Sheet::new(&[("change", change)], s))
}

fn run_makeup(v: &Values) -> Result<Sheet, Failure> {
    let flow = makeup_c600(
        Length::from_si(v.si("length")),
        Length::from_si(v.si("nominal_diameter")),
        Pressure::from_si(v.si("test_pressure")),
    )
    .map_err(|e| Failure::at("", e))?
    .si();
    let mut s = v.open();
    // The source's formula with its own units: feet, inches, psi, gallons an hour.
    let formula = "(L/0.3048)*(D/0.0254)*sqrt(P/6894.757293168361)/148000 * 3.785411784e-3/3600";
    s.result("Q", "make-up water", formula, flow, unit::L_PER_H, C600);
    Ok(Sheet::new(&[("flow", flow)], s))
}
