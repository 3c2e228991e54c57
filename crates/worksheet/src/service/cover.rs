use pipe::{AWWA_MODULUS, laying_type};
use quantity::{Length, Pressure, unit};
use service::{RING_BENDING_LIMIT, SERVICE_ALLOWANCE, max_cover, pressure_wall, total_wall};
use working::{Evidence, Source};

use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const READ: Source = Source::new("ANSI/AWWA C150/A21.50", Evidence::Published);
const FORM: Source = Source::new(
    "ANSI/AWWA C150/A21.50, form confirmed by the published cover table",
    Evidence::FromMemory,
);
static FULL_TRUCK: Source = Source::new(
    "no reduction of the truck load: on the safe side of the table of C150",
    Evidence::Judgement,
);

const OUTSIDE: Input =
    Input::quantity("outside_diameter", "D", "outside diameter", unit::INCH, Range::Positive);
const TOLERANCE: Input = Input::quantity(
    "casting_tolerance",
    "tol",
    "casting tolerance: 0.05 in (3-8 in), 0.06 (10-12), 0.07 (14-42), 0.08 (48), 0.09 (54-64)",
    unit::INCH,
    Range::NotNegative,
);

pub(super) static WALL_C150: Worksheet = Worksheet {
    id: "wall-c150",
    title: "wall for internal pressure (AWWA C150)",
    inputs: &[
        OUTSIDE,
        Input::quantity(
            "working_pressure",
            "P_w",
            "working pressure, the pressure class",
            unit::PSI,
            Range::NotNegative,
        ),
        TOLERANCE,
    ],
    outputs: &[
        Output::new("net_wall", "net wall for pressure and surge", unit::INCH),
        Output::new("total_wall", "with service allowance and tolerance", unit::INCH),
    ],
    source: READ,
    example: &[
        ("outside_diameter", "13.20 in"),
        ("working_pressure", "350 psi"),
        ("casting_tolerance", "0.06 in"),
    ],
    run: run_wall,
};

pub(super) static COVER_C150: Worksheet = Worksheet {
    id: "cover-c150",
    title: "greatest cover under earth and one truck (AWWA C150)",
    inputs: &[
        OUTSIDE,
        Input::quantity("wall_nominal", "t_nom", "nominal wall", unit::INCH, Range::Positive),
        TOLERANCE,
        Input::choice(
            "laying_type",
            "laying condition of AWWA C150, 1 (loose) to 5 (compacted to the top)",
            &["1", "2", "3", "4", "5"],
        ),
        Input::quantity(
            "reduction",
            "R",
            "reduction of the truck load at small cover, C150 tabulates it",
            unit::ONE,
            Range::Within(0.0, 1.0),
        )
        .or("1", &FULL_TRUCK),
    ],
    outputs: &[
        Output::new("max_cover", "greatest cover", unit::M),
        Output::new("governs", "criterion that governs: bending or deflection", unit::ONE),
    ],
    source: FORM,
    example: &[
        ("outside_diameter", "9.05 in"),
        ("wall_nominal", "0.25 in"),
        ("casting_tolerance", "0.05 in"),
        ("laying_type", "4"),
    ],
    run: run_cover,
};

fn run_wall(v: &Values) -> Result<Sheet, Failure> {
    let d = Length::from_si(v.si("outside_diameter"));
    let p = Pressure::from_si(v.si("working_pressure"));
    let tolerance = Length::from_si(v.si("casting_tolerance"));
    let net = pressure_wall(d, p).map_err(|e| Failure::at("", e))?;
    let total = total_wall(net, tolerance).map_err(|e| Failure::at("", e))?.si();
    let mut s = v.open();
    s.given_from("P_s", "surge allowance", Pressure::psi(100.0).si(), unit::PSI, READ);
    s.given_from("S", "yield strength", Pressure::psi(42_000.0).si(), unit::PSI, READ);
    s.given_from("t_s", "service allowance", SERVICE_ALLOWANCE.si(), unit::INCH, FORM);
    s.derive("P_i", "design pressure", "2*(P_w + P_s)", unit::PSI, READ);
    s.result("t", "net wall", "P_i*D/(2*S)", net.si(), unit::INCH, READ);
    s.result("T", "total wall", "t + t_s + tol", total, unit::INCH, READ);
    Ok(Sheet::new(&[("net_wall", net.si()), ("total_wall", total)], s))
}

fn run_cover(v: &Values) -> Result<Sheet, Failure> {
    let number = v.word("laying_type").parse().unwrap_or(0);
    let laying = laying_type(number).map_err(|e| Failure::at("laying_type", e))?;
    let result = max_cover(
        Length::from_si(v.si("outside_diameter")),
        Length::from_si(v.si("wall_nominal")),
        Length::from_si(v.si("casting_tolerance")),
        &laying,
        v.si("reduction"),
    )
    .map_err(|e| Failure::at("wall_nominal", e))?;
    let load = result.load;
    let cover = result.cover.si();
    let mut s = v.open();
    let source = laying.source.clone();
    s.given_from("E1", "soil reaction E'", laying.soil_modulus.si(), unit::PSI, source.clone());
    let (kb, kx) = (laying.moment_coefficient, laying.deflection_coefficient);
    s.given_from("K_b", "moment coefficient", kb, unit::ONE, source.clone());
    s.given_from("K_x", "deflection coefficient", kx, unit::ONE, source);
    s.given_from("E", "modulus of the iron", AWWA_MODULUS.si(), unit::PSI, READ);
    s.given_from("f", "bending limit", RING_BENDING_LIMIT.si(), unit::PSI, READ);
    s.given_from("t_s", "service allowance", SERVICE_ALLOWANCE.si(), unit::INCH, FORM);
    let (net, wall) = (load.net_wall.si(), load.deflection_wall.si());
    s.result("t1", "wall for the deflection", "t_nom - tol", wall, unit::INCH, READ);
    s.result("t", "net wall for bending", "t1 - t_s", net, unit::INCH, READ);
    s.result(
        "P_b",
        "borne at the bending limit",
        "f/(3*(D/t)*(D/t - 1)*(K_b - K_x/(8*E/(E1*(D/t - 1)^3) + 0.732)))",
        load.by_bending.si(),
        unit::PSI,
        FORM,
    );
    s.result(
        "P_d",
        "borne at 3 % deflection",
        "0.03/(12*K_x)*(8*E/(D/t1 - 1)^3 + 0.732*E1)",
        load.by_deflection.si(),
        unit::PSI,
        FORM,
    );
    s.derive("P_v", "borne", "min(P_b, P_d)", unit::PSI, READ);
    let procedure = "greatest H at which P_e + P_t = P_v";
    s.found("H", "greatest cover", procedure, cover, unit::FT, FORM);
    let earth = result.earth.si();
    let prism = "120*4.4482216152605/0.3048^3*H";
    s.result("P_e", "earth pressure at H, 120 lbf/ft3", prism, earth, unit::PSI, READ);
    s.derive("A", "half the diameter", "D/2", unit::INCH, FORM);
    s.derive("B", "half the spread of the wheel", "18*0.0254", unit::INCH, READ);
    s.derive("q", "A^2 + H^2 + B^2", "A^2 + H^2 + B^2", unit::FT2, FORM);
    s.derive(
        "C",
        "surface load factor",
        "1 - 2/pi*asin(H*sqrt(q/((A^2 + H^2)*(H^2 + B^2)))) \
         + 2/pi*B*A*H/sqrt(q)*(1/(A^2 + H^2) + 1/(H^2 + B^2))",
        unit::ONE,
        FORM,
    );
    s.result(
        "P_t",
        "truck pressure at H, wheel 16 000 lbf, impact 1.5",
        "R*1.5*C*16000*4.4482216152605/(2*B*D)",
        result.truck.si(),
        unit::PSI,
        READ,
    );
    s.derive("P_sum", "earth and truck, equal to P_v", "P_e + P_t", unit::PSI, READ);
    let sheet = Sheet::new(&[("max_cover", cover)], s);
    Ok(sheet.with_word("governs", load.governs.word()))
}
