use pull::published::{
    BEND_REACTION, STAGE_FORM, Stage, StageBend, StageForm, StiffPipe, bend_reaction, stage_form,
};
use quantity::{Force, ForcePerLength, Length, Pressure, UnitWeight, unit};
use working::{Evidence, Source};

use super::refused;
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

static REMEMBERED: Source =
    Source::new("value that goes with the European stage form", Evidence::FromMemory);
static FREE_JOINTS: Source = Source::new(
    "free joints take the curvature: the barrels do not bend, so the soil does not react",
    Evidence::Derived,
);

const fn length(key: &'static str, symbol: &'static str, meaning: &'static str) -> Input {
    Input::quantity(key, symbol, meaning, unit::M, Range::NotNegative)
}

const fn friction(key: &'static str, symbol: &'static str, meaning: &'static str) -> Input {
    Input::quantity(key, symbol, meaning, unit::ONE, Range::Within(0.0, 1.0))
}

pub(super) static PULL_STAGE: Worksheet = Worksheet {
    id: "pull-stage",
    title: "pull by the European stage form, two bends",
    inputs: &[
        Input::quantity("outside_diameter", "D", "outside diameter", unit::MM, Range::SIZE),
        Input::quantity(
            "weight_air",
            "q",
            "weight of the pipe on the rollers",
            unit::N_PER_M,
            Range::NotNegative,
        ),
        Input::quantity(
            "net_weight",
            "w",
            "net weight in the fluid, positive sinks",
            unit::N_PER_M,
            Range::Any,
        ),
        length("string_length", "L_s", "string on the rollers before the pull"),
        length("straight_pipe_side", "L_1", "straight at the pipe side"),
        length("bend_length_pipe_side", "L_2", "length of the bend at the pipe side"),
        Input::quantity("radius_pipe_side", "R_2", "its radius", unit::M, Range::Positive),
        length("level_length", "L_3", "straight between the bends"),
        length("bend_length_rig_side", "L_4", "length of the bend at the rig side"),
        Input::quantity("radius_rig_side", "R_4", "its radius", unit::M, Range::Positive),
        length("straight_rig_side", "L_5", "straight at the rig side"),
        Input::quantity(
            "bend_force",
            "Q",
            "reaction of the soil to the pipe's stiffness at each bend: two steps",
            unit::KN,
            Range::NotNegative,
        )
        .or("0 kN", &FREE_JOINTS),
        friction("friction_rollers", "f1", "friction on the rollers").or("0.1", &REMEMBERED),
        Input::quantity(
            "fluid_stress",
            "f2",
            "shear stress of the fluid on the pipe",
            unit::PA,
            Range::NotNegative,
        )
        .or("50 Pa", &REMEMBERED),
        friction("friction_bore", "f3", "friction on the wall of the bore").or("0.2", &REMEMBERED),
        Input::quantity(
            "overall_factor",
            "k",
            "factor on the result",
            unit::ONE,
            Range::Within(1.0, 10.0),
        )
        .or("1.4", &REMEMBERED),
    ],
    outputs: &[
        Output::new("force_start", "pull at the start", unit::KN),
        Output::new("force_end", "pull at the end", unit::KN),
        Output::new("force_peak", "greatest pull at the end of a stage", unit::KN),
        Output::new("force_design", "greatest pull with the overall factor", unit::KN),
    ],
    source: STAGE_FORM.source(),
    example: &[
        ("outside_diameter", "635 mm"),
        ("weight_air", "1560.33 N/m"),
        ("net_weight", "-1855.93 N/m"),
        ("string_length", "326 m"),
        ("straight_pipe_side", "60 m"),
        ("bend_length_pipe_side", "43.633 m"),
        ("radius_pipe_side", "250 m"),
        ("level_length", "120 m"),
        ("bend_length_rig_side", "52.36 m"),
        ("radius_rig_side", "250 m"),
        ("straight_rig_side", "50 m"),
    ],
    run: run_stage,
};

fn run_stage(v: &Values) -> Result<Sheet, Failure> {
    let bend = |key| {
        let reaction = Force::from_si(v.si("bend_force"));
        Some(StageBend { radius: Length::from_si(v.si(key)), reaction })
    };
    let stage = |key, bend| Stage { length: Length::from_si(v.si(key)), bend };
    let given = StageForm {
        outside_diameter: Length::from_si(v.si("outside_diameter")),
        weight_air: ForcePerLength::from_si(v.si("weight_air")),
        net_weight: ForcePerLength::from_si(v.si("net_weight")),
        string_length: Length::from_si(v.si("string_length")),
        friction_rollers: v.si("friction_rollers"),
        fluid_stress: Pressure::from_si(v.si("fluid_stress")),
        friction_bore: v.si("friction_bore"),
        overall_factor: v.si("overall_factor"),
    };
    let stages = [
        stage("straight_pipe_side", None),
        stage("bend_length_pipe_side", bend("radius_pipe_side")),
        stage("level_length", None),
        stage("bend_length_rig_side", bend("radius_rig_side")),
        stage("straight_rig_side", None),
    ];
    let forces = stage_form(&given, &stages).map_err(|e| refused(&PULL_STAGE, &e))?;
    let totals: Vec<f64> = forces.iter().map(|f| f.total.si()).collect();

    let source = || STAGE_FORM.source();
    let mut w = v.open();
    let resistance = "pi*D*f2 + abs(w)*f3";
    w.derive("g", "resistance of the bore per length", resistance, unit::N_PER_M, source());
    for (head, total) in totals.iter().enumerate() {
        let meaning = format!("pull with the head at the end of stage {head}");
        let meaning = if head == 0 { "pull at the start" } else { &meaning };
        w.result(
            &format!("T_{head}"),
            meaning,
            &formula(head, &stages),
            *total,
            unit::KN,
            source(),
        );
    }
    let peak = totals.iter().copied().fold(0.0, f64::max);
    let greatest = "max(max(max(T_0, T_1), max(T_2, T_3)), max(T_4, T_5))";
    w.result("T_max", "greatest pull", greatest, peak, unit::KN, source());
    let design = forces.iter().map(|f| f.design.si()).fold(0.0, f64::max);
    w.result("T_k", "greatest pull with the factor", "k*T_max", design, unit::KN, source());
    Ok(Sheet::new(
        &[
            ("force_start", totals.first().copied().unwrap_or(f64::NAN)),
            ("force_end", totals.last().copied().unwrap_or(f64::NAN)),
            ("force_peak", peak),
            ("force_design", design),
        ],
        w,
    ))
}

/// Formula of the pull with the head behind `head` stages: rollers first, then stage by stage.
fn formula(head: usize, stages: &[Stage]) -> String {
    let entered: String = (1..=head).map(|n| format!(" - L_{n}")).collect();
    let rollers = format!("f1*q*max(L_s{entered}, 0)");
    stages[..head].iter().enumerate().fold(rollers, |before, (index, stage)| {
        let n = index + 1;
        if stage.bend.is_some() {
            format!("({before})*(1 + f3*L_{n}/R_{n}) + L_{n}*g + f3*Q")
        } else {
            format!("{before} + L_{n}*g")
        }
    })
}

pub(super) static BEND_REACTION_SHEET: Worksheet = Worksheet {
    id: "bend-reaction",
    title: "reaction of elastic soil to a stiff pipe in a bend",
    inputs: &[
        Input::quantity("outside_diameter", "D", "outside diameter", unit::MM, Range::SIZE),
        Input::quantity("wall", "t", "wall that carries bending", unit::MM, Range::SIZE),
        Input::quantity("modulus", "E", "modulus of elasticity", unit::GPA, Range::Positive),
        Input::quantity("radius", "R", "radius of the bend", unit::M, Range::Positive),
        Input::quantity(
            "subgrade_modulus",
            "k",
            "subgrade modulus of the soil",
            unit::MN_PER_M3,
            Range::Positive,
        ),
    ],
    outputs: &[
        Output::new("deflection", "greatest deflection into the soil", unit::MM),
        Output::new("step_force", "sum of the reaction at one step of curvature", unit::KN),
        Output::new("pressure", "greatest pressure on the soil", unit::KPA),
        Output::new("reciprocal_length", "reciprocal length of the beam on its bed", unit::PER_M),
    ],
    source: BEND_REACTION.source(),
    example: &[
        ("outside_diameter", "609.6 mm"),
        ("wall", "12.7 mm"),
        ("modulus", "207 GPa"),
        ("radius", "732 m"),
        ("subgrade_modulus", "10 MN/m3"),
    ],
    run: run_bend_reaction,
};

fn run_bend_reaction(v: &Values) -> Result<Sheet, Failure> {
    let pipe = StiffPipe {
        outside_diameter: Length::from_si(v.si("outside_diameter")),
        wall: Length::from_si(v.si("wall")),
        modulus: Pressure::from_si(v.si("modulus")),
        net_weight: ForcePerLength::ZERO,
    };
    let found = bend_reaction(
        &pipe,
        Length::from_si(v.si("radius")),
        UnitWeight::from_si(v.si("subgrade_modulus")),
    )
    .map_err(|e| refused(&BEND_REACTION_SHEET, &e))?;
    let source = || BEND_REACTION.source();
    let mut w = v.open();
    w.derive(
        "I",
        "second moment of the wall's section, m4",
        "pi*(D - t)^3*t/8",
        unit::ONE,
        source(),
    );
    let lambda = found.reciprocal_length;
    w.result(
        "lambda",
        "reciprocal length of the beam on its bed",
        "(k*D/(4*E*I))^0.25",
        lambda,
        unit::PER_M,
        source(),
    );
    let y = found.deflection.si();
    let formula = "exp(-pi/4)*sin(pi/4)/(4*lambda^2*R)";
    w.result("y", "greatest deflection", formula, y, unit::MM, source());
    let pressure = found.pressure.si();
    w.result("p", "greatest pressure on the soil", "k*y", pressure, unit::KPA, source());
    let step = found.step_force.si();
    let formula = "k*D/(4*lambda^3*R)*(1 + exp(-pi))/(1 - exp(-pi))";
    w.result("Q", "reaction at one step of curvature", formula, step, unit::KN, source());
    let shortcut = "p*D*pi/lambda";
    w.derive("Q_s", "the same by the usual shortcut, 7 % low", shortcut, unit::KN, source());
    Ok(Sheet::new(
        &[
            ("deflection", y),
            ("step_force", step),
            ("pressure", pressure),
            ("reciprocal_length", lambda),
        ],
        w,
    ))
}
