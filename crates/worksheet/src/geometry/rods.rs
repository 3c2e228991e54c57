use line::{grade_plan, quarter_bend_length, rod_bending_stress, rod_plan, rod_radius, rod_step};
use quantity::{Angle, Length, Pressure, unit};
use working::{Evidence, Source};

use super::{EXACT, NOT_VERTICAL, STEEP};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const ROD: Input = Input::quantity("rod_length", "l", "length of a rod", unit::M, Range::Positive);
const STRAIGHT_RODS: Input = Input::quantity(
    "straight_rods",
    "n0",
    "rods drilled straight first",
    unit::ONE,
    Range::NotNegative,
);
const RODS: Input =
    Input::quantity("rods", "n", "rods drilled in all", unit::ONE, Range::NotNegative);
static ONE_ROD_STRAIGHT: Source = Source::new(
    "Najafi, Trenchless Technology Piping, p. 210: at least one full rod straight in the ground",
    Evidence::Published,
);

pub(super) static ROD_PLAN: Worksheet = Worksheet {
    id: "rod-plan",
    title: "inclination, depth, setback after rods on an arc to level",
    inputs: &[
        ROD,
        Input::quantity("radius", "R", "radius of the arc", unit::M, Range::Positive),
        Input::quantity("entry_angle", "beta", "entry angle", unit::DEG, STEEP),
        STRAIGHT_RODS.or("1", &ONE_ROD_STRAIGHT),
        RODS,
    ],
    outputs: &[
        Output::new("turn_per_rod", "change of inclination over one rod", unit::DEG),
        Output::new("rods_to_level", "rods on the arc until level", unit::ONE),
        Output::new("inclination", "inclination after these rods, up positive", unit::DEG),
        Output::new("depth", "depth below the entry point", unit::M),
        Output::new("setback", "horizontal distance from the entry point", unit::M),
    ],
    source: EXACT,
    example: &[
        ("rod_length", "6 m"),
        ("radius", "200 m"),
        ("entry_angle", "12 deg"),
        ("rods", "4"),
    ],
    run: plan,
};

fn plan(v: &Values) -> Result<Sheet, Failure> {
    let metres = |key| Length::from_si(v.si(key));
    let beta = Angle::from_si(v.si("entry_angle"));
    let (straight, rods) = (v.si("straight_rods"), v.si("rods"));
    let plan = rod_plan(metres("rod_length"), metres("radius"), beta, straight, rods)
        .map_err(|e| Failure::at("rods", e))?;
    let (turn, inclination) = (plan.turn_per_rod.si(), plan.inclination.si());
    let (depth, setback) = (plan.depth.si(), plan.setback.si());
    let mut w = v.open();
    w.result("delta", "turn per rod", "l/R", turn, unit::DEG, EXACT);
    w.result("m", "rods to level", "beta/delta", plan.rods_to_level, unit::ONE, EXACT);
    w.derive("ls", "straight length", "l*min(n, n0)", unit::M, EXACT);
    let formula = "min(max(n - n0, 0)*delta, beta) - beta";
    w.result("P", "inclination", formula, inclination, unit::DEG, EXACT);
    let formula = "ls*sin(beta) + R*(cos(P) - cos(beta))";
    w.result("d", "depth", formula, depth, unit::M, EXACT);
    let formula = "ls*cos(beta) + R*(sin(beta) + sin(P)) + l*max(n - n0 - m, 0)";
    w.result("S", "setback", formula, setback, unit::M, EXACT);
    let outputs = [
        ("turn_per_rod", turn),
        ("rods_to_level", plan.rods_to_level),
        ("inclination", inclination),
        ("depth", depth),
        ("setback", setback),
    ];
    Ok(Sheet::new(&outputs, w))
}

const FIELD_RULE: Source = Source::new(
    "field rule of a trade article on bore plans and of one locator manufacturer's manual",
    Evidence::Published,
);
const MEAN_RADIUS: Source =
    Source::new("Najafi, Trenchless Technology Piping, eq. 5.11, p. 215", Evidence::Published);

pub(super) static ROD_STEP: Worksheet = Worksheet {
    id: "rod-step",
    title: "mean grade, depth and radius of one rod",
    inputs: &[
        ROD,
        Input::quantity(
            "grade_begin",
            "G1",
            "grade at its beginning, down positive",
            unit::PERCENT_GRADE,
            NOT_VERTICAL,
        ),
        Input::quantity(
            "grade_end",
            "G2",
            "grade at its end, down positive",
            unit::PERCENT_GRADE,
            NOT_VERTICAL,
        ),
    ],
    outputs: &[
        Output::new("mean_grade", "mean of the two grades", unit::PERCENT_GRADE),
        Output::new("depth", "how much deeper the end lies, as one arc", unit::M),
        Output::new("depth_field", "the same by the crews' arithmetic", unit::M),
        Output::new("radius", "radius of the rod, or the word straight", unit::M),
    ],
    source: EXACT,
    example: &[("rod_length", "3 m"), ("grade_begin", "18 %"), ("grade_end", "10 %")],
    run: one_rod,
};

fn one_rod(v: &Values) -> Result<Sheet, Failure> {
    let angle = |key| Angle::from_si(v.si(key));
    let length = Length::from_si(v.si("rod_length"));
    let step = rod_step(length, angle("grade_begin"), angle("grade_end"))
        .map_err(|e| Failure::at("grade_end", e))?;
    let (mean, depth, field) = (step.mean_grade.si(), step.depth.si(), step.depth_field.si());
    let mut w = v.open();
    let formula = "atan((tan(G1) + tan(G2))/2)";
    w.result("Gm", "mean grade", formula, mean, unit::PERCENT_GRADE, FIELD_RULE);
    w.result("dz", "depth by the crews' arithmetic", "l*tan(Gm)", field, unit::M, FIELD_RULE);
    let outputs = [("mean_grade", mean), ("depth", depth), ("depth_field", field)];
    let Some(radius) = step.radius.map(Length::si) else {
        w.result("d", "depth", "l*sin(G1)", depth, unit::M, EXACT);
        return Ok(Sheet::new(&outputs, w).with_word("radius", "straight"));
    };
    w.result("R", "radius", "l/abs(G2 - G1)", radius, unit::M, MEAN_RADIUS);
    let formula = "l*sin((G1 + G2)/2)*sin(l/(2*R))/(l/(2*R))";
    w.result("d", "depth", formula, depth, unit::M, EXACT);
    let [a, b, c] = outputs;
    Ok(Sheet::new(&[a, b, c, ("radius", radius)], w))
}

const MANUAL_PLAN: Source = Source::new(
    "practice of one rig manufacturer's operator manuals; \
     depth of each rod exact at its mean grade",
    Evidence::Published,
);

pub(super) static ROD_GRADE_PLAN: Worksheet = Worksheet {
    id: "rod-grade-plan",
    title: "grade and depth after rods that take off the same grade",
    inputs: &[
        ROD,
        Input::quantity("entry_grade", "G0", "entry grade", unit::PERCENT_GRADE, STEEP),
        Input::quantity(
            "grade_per_rod",
            "dG",
            "grade taken off by each rod on the curve",
            unit::PERCENT_GRADE,
            STEEP,
        ),
        STRAIGHT_RODS.or("1", &ONE_ROD_STRAIGHT),
        RODS,
    ],
    outputs: &[
        Output::new("grade", "grade after these rods, down positive", unit::PERCENT_GRADE),
        Output::new("depth", "depth below the entry point", unit::M),
        Output::new("rods_to_level", "rods in all until level", unit::ONE),
        Output::new("level_depth", "depth at which the bore is level", unit::M),
    ],
    source: MANUAL_PLAN,
    example: &[
        ("rod_length", "10 ft"),
        ("entry_grade", "18 %"),
        ("grade_per_rod", "8 %"),
        ("rods", "2"),
    ],
    run: by_grade,
};

fn by_grade(v: &Values) -> Result<Sheet, Failure> {
    let angle = |key| Angle::from_si(v.si(key));
    let length = Length::from_si(v.si("rod_length"));
    let (straight, rods) = (v.si("straight_rods"), v.si("rods"));
    let plan = grade_plan(length, angle("entry_grade"), angle("grade_per_rod"), straight, rods)
        .map_err(|e| Failure::at("grade_per_rod", e))?;
    let (grade, depth) = (plan.grade.si(), plan.depth.si());
    let (to_level, level_depth) = (plan.rods_to_level, plan.level_depth.si());
    let mut w = v.open();
    let formula = "atan(max(tan(G0) - tan(dG)*max(n - n0, 0), 0))";
    w.result("G", "grade", formula, grade, unit::PERCENT_GRADE, MANUAL_PLAN);
    let procedure = "sum over the rods of l*sin(atan(mean grade of the rod))";
    w.found("d", "depth", procedure, depth, unit::M, EXACT);
    w.result("m", "rods until level", "n0 + tan(G0)/tan(dG)", to_level, unit::ONE, MANUAL_PLAN);
    let procedure = "the same sum up to m rods, the last one as the fraction it takes";
    w.found("dm", "level depth", procedure, level_depth, unit::M, EXACT);
    let outputs = [
        ("grade", grade),
        ("depth", depth),
        ("rods_to_level", to_level),
        ("level_depth", level_depth),
    ];
    Ok(Sheet::new(&outputs, w))
}

const ROD_RULE: Source = Source::new(
    "Najafi, Trenchless Technology Piping, eq. 5.1, p. 192, quoting ASTM F1962-05; \
     the rod maker's figure goes first",
    Evidence::Published,
);

const DIAMETER: Input =
    Input::quantity("rod_diameter", "D", "outside diameter of the rod", unit::MM, Range::SIZE);

pub(super) static ROD_RADIUS: Worksheet = Worksheet {
    id: "rod-radius",
    title: "smallest radius of a drill rod, 100 ft per inch",
    inputs: &[DIAMETER],
    outputs: &[
        Output::new("radius", "smallest radius", unit::M),
        Output::new("quarter_length", "arc length of a quarter turn at it", unit::M),
    ],
    source: ROD_RULE,
    example: &[("rod_diameter", "3.5 in")],
    run: smallest_radius,
};

fn smallest_radius(v: &Values) -> Result<Sheet, Failure> {
    let fail = |e| Failure::at("rod_diameter", e);
    let radius = rod_radius(Length::from_si(v.si("rod_diameter"))).map_err(fail)?;
    let quarter = quarter_bend_length(radius).map_err(fail)?.si();
    let radius = radius.si();
    let mut w = v.open();
    w.result("R", "smallest radius", "1200*D", radius, unit::M, ROD_RULE);
    w.result("Q", "quarter turn", "pi*R/2", quarter, unit::M, EXACT);
    Ok(Sheet::new(&[("radius", radius), ("quarter_length", quarter)], w))
}

static STEEL: Source =
    Source::new("modulus of elasticity of steel, usual value", Evidence::CommonPractice);
const BEAM: Source = Source::new("theory of beams, exact for an elastic rod", Evidence::Derived);

pub(super) static ROD_BENDING: Worksheet = Worksheet {
    id: "rod-bending",
    title: "bending stress in a drill rod that follows a curve",
    inputs: &[
        DIAMETER,
        Input::quantity("radius", "R", "radius of the curve", unit::M, Range::Positive),
        Input::quantity("modulus", "E", "modulus of elasticity", unit::GPA, Range::Positive)
            .or("205 GPa", &STEEL),
    ],
    outputs: &[Output::new("stress", "bending stress in the outer fibre", unit::MPA)],
    source: BEAM,
    example: &[("rod_diameter", "2 in"), ("radius", "200 ft")],
    run: bending,
};

fn bending(v: &Values) -> Result<Sheet, Failure> {
    let metres = |key| Length::from_si(v.si(key));
    let modulus = Pressure::from_si(v.si("modulus"));
    let stress = rod_bending_stress(metres("rod_diameter"), metres("radius"), modulus)
        .map_err(|e| Failure::at("radius", e))?
        .si();
    let mut w = v.open();
    w.result("sigma", "bending stress", "E*D/(2*R)", stress, unit::MPA, BEAM);
    Ok(Sheet::new(&[("stress", stress)], w))
}
