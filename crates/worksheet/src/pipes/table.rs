use pipe::{
    Layer, Pipe, Valued, awwa_pipe, awwa_unrestrained_bell, en545_pipe, preferred_class,
    push_on_socket_mass, restrained_socket_mass,
};
use quantity::{Length, unit};
use working::{Builder, Evidence, Source};

use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const EXACT: Source = Source::new("geometry of rings", Evidence::Derived);
static USUAL_LENGTH: Source = Source::new("usual laying length of EN 545", Evidence::FromMemory);
static RESTRAINED: Source =
    Source::new("pulled strings have restrained joints", Evidence::Judgement);
static LINED: Source = Source::new("water mains are lined with mortar", Evidence::CommonPractice);

pub(super) static PIPE_EN545: Worksheet = Worksheet {
    id: "pipe-en545",
    title: "dimensions, masses and ratings of a pipe (EN 545)",
    inputs: &[
        Input::quantity("dn", "DN", "nominal size", unit::ONE, Range::Within(1.0, 10_000.0)),
        Input::choice(
            "class",
            "class of the wall; preferred is C40 to DN 300, C30 to DN 600, C25 above",
            &[
                "K7",
                "K8",
                "K9",
                "K10",
                "K11",
                "K12",
                "C25",
                "C30",
                "C40",
                "C50",
                "C64",
                "C100",
                "preferred",
            ],
        ),
        Input::quantity("laying_length", "a", "laying length", unit::M, Range::Positive)
            .or("6 m", &USUAL_LENGTH),
        Input::choice("socket", "kind of socket, for the mass", &["restrained", "push-on"])
            .or("restrained", &RESTRAINED),
        Input::choice("lining", "lining, for bore and masses", &["mortar", "none"])
            .or("mortar", &LINED),
    ],
    outputs: &[
        Output::new("outside_diameter", "outside diameter of the barrel", unit::MM),
        Output::new("wall_nominal", "nominal wall", unit::MM),
        Output::new("wall_min", "minimum wall", unit::MM),
        Output::new("bore", "bore inside the lining", unit::MM),
        Output::new("iron_mass", "iron of the barrel per length", unit::KG_PER_M),
        Output::new("barrel_mass", "barrel with lining per length", unit::KG_PER_M),
        Output::new("pipe_mass", "one pipe with socket", unit::KG),
        Output::new("pfa", "allowable operating pressure of the pipe", unit::BAR),
        Output::new("pma", "allowable maximum operating pressure of the pipe", unit::BAR),
        Output::new("pea", "allowable site test pressure of the pipe", unit::BAR),
    ],
    source: Source::new("EN 545:2010 tables; each line its own", Evidence::Published),
    example: &[("dn", "400"), ("class", "K9")],
    run: run_en545,
};

pub(super) static PIPE_AWWA: Worksheet = Worksheet {
    id: "pipe-awwa",
    title: "dimensions of a pipe of AWWA C151",
    inputs: &[
        Input::quantity(
            "size",
            "size",
            "size in inches, a bare number",
            unit::INCH,
            Range::Positive,
        )
        .bare(unit::INCH),
        Input::quantity(
            "pressure_class",
            "p",
            "pressure class; a bare number is in psi",
            unit::PSI,
            Range::Positive,
        )
        .bare(unit::PSI),
    ],
    outputs: &[
        Output::new("outside_diameter", "outside diameter of the barrel", unit::INCH),
        Output::new("wall_nominal", "nominal wall", unit::INCH),
        Output::new("wall_min", "nominal wall less casting tolerance", unit::INCH),
        Output::new("iron_bore", "bore without lining", unit::INCH),
        Output::new("iron_mass", "iron of the barrel per length", unit::KG_PER_M),
        Output::new("bell_diameter", "outside diameter of the unrestrained bell", unit::INCH),
    ],
    source: Source::new("ANSI/AWWA C151/A21.51-17; each line its own", Evidence::Published),
    example: &[("size", "12"), ("pressure_class", "350")],
    run: run_awwa,
};

/// A whole number written in a unit, or a refusal that names the key.
fn whole(key: &'static str, value: f64) -> Result<u32, Failure> {
    let rounded = value.round();
    if (value - rounded).abs() > 1e-6 * rounded.abs() || !(1.0..1e6).contains(&rounded) {
        return Err(Failure::at(key, format!("must be a whole number, but was {value}")));
    }
    #[expect(clippy::cast_possible_truncation, reason = "lies in 1..1e6")]
    #[expect(clippy::cast_sign_loss, reason = "lies in 1..1e6")]
    Ok(rounded as u32)
}

fn table_value(s: &mut Builder, symbol: &str, meaning: &str, value: &Valued<Length>) {
    s.given_from(symbol, meaning, value.value.si(), unit::MM, value.source.clone());
}

fn run_en545(v: &Values) -> Result<Sheet, Failure> {
    let dn = whole("dn", v.si("dn"))?;
    let at_dn = |e| Failure::at("dn", e);
    let class = match v.word("class") {
        "preferred" => preferred_class(dn).map_err(at_dn)?,
        word => word,
    };
    let mut data = en545_pipe(dn, class).map_err(at_dn)?.into_data();
    data.laying_length = Valued::given(Length::from_si(v.si("laying_length")));
    let de = data.outside_diameter.value;
    let socket = if v.word("socket") == "push-on" {
        push_on_socket_mass(de)
    } else {
        restrained_socket_mass(de)
    };
    data.socket_mass = socket.map_err(at_dn)?;
    if v.word("lining") == "none" {
        data.lining = Valued::given(Layer::NONE);
    }
    let pipe = Pipe::new(data).map_err(at_dn)?;
    let rating = pipe.rating().map_err(at_dn)?;
    let d = pipe.data();
    let mut s = v.open();
    table_value(&mut s, "DE", "outside diameter", &d.outside_diameter);
    table_value(&mut s, "e", "nominal wall", &d.wall_nominal);
    table_value(&mut s, "e_min", "minimum wall", &d.wall_min);
    let lining = d.lining.source.clone();
    s.given_from("t", "lining", pipe.lining().thickness.si(), unit::MM, lining.clone());
    let (rho, rho_l) = (d.iron_density.value.si(), pipe.lining().density.si());
    s.given_from("rho", "density of iron", rho, unit::KG_PER_M3, d.iron_density.source.clone());
    s.given_from("rho_l", "density of the lining", rho_l, unit::KG_PER_M3, lining);
    let socket_mass = d.socket_mass.value.si();
    s.given_from("m_s", "socket", socket_mass, unit::KG, d.socket_mass.source.clone());
    let bore = pipe.bore().si();
    s.result("D_i", "bore inside the lining", "DE - 2*e - 2*t", bore, unit::MM, EXACT);
    let iron_mass =
        s.derive("m_i", "iron of the barrel", "rho*pi*(DE - e)*e", unit::KG_PER_M, EXACT);
    let barrel_mass = pipe.barrel_mass_per_length().si();
    let formula = "m_i + rho_l*pi*(DE - 2*e - t)*t";
    s.result("m_b", "barrel with lining", formula, barrel_mass, unit::KG_PER_M, EXACT);
    let pipe_mass = pipe.mass_per_pipe().si();
    s.result("M", "one pipe", "m_b*a + m_s", pipe_mass, unit::KG, EXACT);
    let (pfa, pma, pea) = (rating.pfa.si(), rating.pma.si(), rating.pea.si());
    s.given_from("PFA", "allowable operating pressure", pfa, unit::BAR, rating.source);
    let rule = Source::new("EN 545 / EN 805 as quoted by a maker", Evidence::Published);
    s.result("PMA", "allowable maximum pressure", "1.2*PFA", pma, unit::BAR, rule.clone());
    s.result("PEA", "allowable site test pressure", "PMA + 5e5", pea, unit::BAR, rule);
    Ok(Sheet::new(
        &[
            ("outside_diameter", de.si()),
            ("wall_nominal", pipe.wall_nominal().si()),
            ("wall_min", pipe.wall_min().si()),
            ("bore", bore),
            ("iron_mass", iron_mass),
            ("barrel_mass", barrel_mass),
            ("pipe_mass", pipe_mass),
            ("pfa", pfa),
            ("pma", pma),
            ("pea", pea),
        ],
        s,
    ))
}

fn run_awwa(v: &Values) -> Result<Sheet, Failure> {
    let size = whole("size", unit::INCH.from_si(v.si("size")))?;
    let class = whole("pressure_class", unit::PSI.from_si(v.si("pressure_class")))?;
    let pipe = awwa_pipe(size, class).map_err(|e| {
        let key = if e.code() == "unknown_size" { "size" } else { "pressure_class" };
        Failure::at(key, e)
    })?;
    let d = pipe.data();
    let mut s = v.open();
    table_value(&mut s, "D", "outside diameter", &d.outside_diameter);
    table_value(&mut s, "t", "nominal wall", &d.wall_nominal);
    table_value(&mut s, "t_min", "least wall", &d.wall_min);
    let bell = awwa_unrestrained_bell(size).map_err(|e| Failure::at("size", e))?;
    table_value(&mut s, "D_b", "unrestrained bell", &bell);
    let rho = d.iron_density.value.si();
    s.given_from("rho", "density of iron", rho, unit::KG_PER_M3, d.iron_density.source.clone());
    let bore = pipe.iron_bore().si();
    s.result("D_i", "bore without lining", "D - 2*t", bore, unit::INCH, EXACT);
    let iron = s.derive("m_i", "iron of the barrel", "rho*pi*(D - t)*t", unit::KG_PER_M, EXACT);
    Ok(Sheet::new(
        &[
            ("outside_diameter", pipe.outside_diameter().si()),
            ("wall_nominal", pipe.wall_nominal().si()),
            ("wall_min", pipe.wall_min().si()),
            ("iron_bore", bore),
            ("iron_mass", iron),
            ("bell_diameter", bell.value.si()),
        ],
        s,
    ))
}
