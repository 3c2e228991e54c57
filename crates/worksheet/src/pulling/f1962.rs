use std::f64::consts::TAU;

use pull::published::{
    F1962, F1962_METHOD, HYDROKINETIC, MINI_RULE, MiniRule, f1962, hydrokinetic_force, mini_rule,
};
use quantity::{Angle, ForcePerLength, Length, Pressure, unit};

use super::refused;
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

/// Bore angles of the form: up to below the vertical.
const ANGLE: Range = Range::Within(0.0, 1.57);

pub(super) static PULL_F1962: Worksheet = Worksheet {
    id: "pull-f1962",
    title: "pull at four places by the F1962 form",
    inputs: &[
        Input::quantity(
            "weight_air",
            "w_a",
            "weight of the pipe in air",
            unit::N_PER_M,
            Range::NotNegative,
        ),
        Input::quantity(
            "weight_net_up",
            "w_b",
            "net upward force on the pipe in the bore",
            unit::N_PER_M,
            Range::Any,
        ),
        Input::quantity(
            "extra_length",
            "L1",
            "length of pipe behind the crossing",
            unit::M,
            Range::NotNegative,
        ),
        Input::quantity(
            "transition_pipe_side",
            "L2",
            "horizontal length of the descent at the pipe side",
            unit::M,
            Range::NotNegative,
        ),
        Input::quantity("level_length", "L3", "level run", unit::M, Range::NotNegative),
        Input::quantity(
            "transition_rig_side",
            "L4",
            "horizontal length of the ascent at the rig side",
            unit::M,
            Range::NotNegative,
        ),
        Input::quantity("depth", "H", "depth of the level run", unit::M, Range::NotNegative),
        Input::quantity(
            "angle_pipe_side",
            "alpha",
            "bore angle at the pipe side",
            unit::DEG,
            ANGLE,
        ),
        Input::quantity("angle_rig_side", "beta", "bore angle at the rig side", unit::DEG, ANGLE),
        Input::quantity(
            "friction_surface",
            "v_a",
            "friction above ground",
            unit::ONE,
            Range::Within(0.0, 1.0),
        ),
        Input::quantity(
            "friction_bore",
            "v_b",
            "friction in the bore",
            unit::ONE,
            Range::Within(0.0, 1.0),
        ),
    ],
    outputs: &[
        Output::new("force_a", "pull with the head at the bore mouth, pipe side", unit::KN),
        Output::new("force_b", "pull with the head at the end of the descent", unit::KN),
        Output::new("force_c", "pull with the head at the end of the level run", unit::KN),
        Output::new("force_d", "pull with the head at the bore mouth, rig side", unit::KN),
    ],
    source: F1962_METHOD.source(),
    example: &[
        ("weight_air", "1560 N/m"),
        ("weight_net_up", "1856 N/m"),
        ("extra_length", "0 m"),
        ("transition_pipe_side", "104 m"),
        ("level_length", "120 m"),
        ("transition_rig_side", "102 m"),
        ("depth", "14 m"),
        ("angle_pipe_side", "10 deg"),
        ("angle_rig_side", "12 deg"),
        ("friction_surface", "0.1"),
        ("friction_bore", "0.3"),
    ],
    run: run_f1962,
};

fn run_f1962(v: &Values) -> Result<Sheet, Failure> {
    let length = |key| Length::from_si(v.si(key));
    let forces = f1962(&F1962 {
        weight_air: ForcePerLength::from_si(v.si("weight_air")),
        weight_net_up: ForcePerLength::from_si(v.si("weight_net_up")),
        extra_length: length("extra_length"),
        transition_pipe_side: length("transition_pipe_side"),
        level_length: length("level_length"),
        transition_rig_side: length("transition_rig_side"),
        depth: length("depth"),
        depth_rig_side: length("depth"),
        angle_pipe_side: Angle::from_si(v.si("angle_pipe_side")),
        angle_rig_side: Angle::from_si(v.si("angle_rig_side")),
        friction_surface: v.si("friction_surface"),
        friction_bore: v.si("friction_bore"),
    })
    .map_err(|e| refused(&PULL_F1962, &e))?;
    let mut w = v.open();
    let mut pull = |symbol, meaning, formula, force: quantity::Force| {
        w.result(symbol, meaning, formula, force.si(), unit::KN, F1962_METHOD.source())
    };
    let a = pull(
        "T_A",
        "pull at the bore mouth, pipe side",
        "exp(v_a*alpha)*v_a*w_a*(L1 + L2 + L3 + L4)",
        forces.a,
    );
    let b = pull(
        "T_B",
        "pull at the end of the descent",
        "exp(v_b*alpha)*(T_A + v_b*abs(w_b)*L2 + w_b*H - v_a*w_a*L2*exp(v_a*alpha))",
        forces.b,
    );
    let c = pull(
        "T_C",
        "pull at the end of the level run",
        "T_B + v_b*abs(w_b)*L3 - exp(v_b*alpha)*(v_a*w_a*L3*exp(v_a*alpha))",
        forces.c,
    );
    let d = pull(
        "T_D",
        "pull at the bore mouth, rig side",
        "exp(v_b*beta)*(T_C + v_b*abs(w_b)*L4 - w_b*H - exp(v_b*alpha)*(v_a*w_a*L4*exp(v_a*alpha)))",
        forces.d,
    );
    Ok(Sheet::new(&[("force_a", a), ("force_b", b), ("force_c", c), ("force_d", d)], w))
}

pub(super) static HYDROKINETIC_SHEET: Worksheet = Worksheet {
    id: "hydrokinetic",
    title: "force of the fluid's pressure on the annulus (F1962)",
    inputs: &[
        Input::quantity("pressure", "p", "hydrokinetic pressure", unit::KPA, Range::NotNegative),
        Input::quantity("hole_diameter", "D_h", "diameter of the bore", unit::MM, Range::SIZE),
        Input::quantity(
            "outside_diameter",
            "D",
            "outside diameter of the pipe",
            unit::MM,
            Range::SIZE,
        ),
    ],
    outputs: &[Output::new("force", "hydrokinetic force", unit::KN)],
    source: HYDROKINETIC.source(),
    example: &[("pressure", "70 kPa"), ("hole_diameter", "1.0 m"), ("outside_diameter", "635 mm")],
    run: run_hydrokinetic,
};

fn run_hydrokinetic(v: &Values) -> Result<Sheet, Failure> {
    let force = hydrokinetic_force(
        Pressure::from_si(v.si("pressure")),
        Length::from_si(v.si("hole_diameter")),
        Length::from_si(v.si("outside_diameter")),
    )
    .map_err(|e| refused(&HYDROKINETIC_SHEET, &e))?
    .si();
    let mut w = v.open();
    let formula = "p*pi/8*(D_h^2 - D^2)";
    w.result("dT", "hydrokinetic force", formula, force, unit::KN, HYDROKINETIC.source());
    Ok(Sheet::new(&[("force", force)], w))
}

pub(super) static PULL_MINI: Worksheet = Worksheet {
    id: "pull-mini",
    title: "pull of a small crossing by the one-third rule",
    inputs: &[
        Input::quantity("length", "L", "length of the bore", unit::M, Range::Positive),
        Input::quantity(
            "net_weight",
            "w_b",
            "net force on the pipe in the bore, up or down, as a magnitude",
            unit::N_PER_M,
            Range::NotNegative,
        ),
        Input::quantity(
            "planned_bends",
            "a",
            "sum of the planned bends",
            unit::DEG,
            Range::Within(0.0, TAU),
        ),
        Input::quantity("rod_diameter", "d", "diameter of the drill rods", unit::MM, Range::SIZE),
        Input::quantity(
            "permitted_pull",
            "T_p",
            "pull that the pipe may bear, for the reserve",
            unit::KN,
            Range::Positive,
        )
        .optional(),
    ],
    outputs: &[
        Output::new("planned", "planned bends in units of 90 degrees", unit::ONE),
        Output::new("unplanned", "unplanned bends in units of 90 degrees", unit::ONE),
        Output::new("turns", "all bends in units of 90 degrees", unit::ONE),
        Output::new("force", "pull at the end", unit::KN),
        Output::new(
            "reserve",
            "permitted pull over pull, small rigs ask for about 2; a word without one of the two",
            unit::ONE,
        ),
    ],
    source: MINI_RULE.source(),
    example: &[
        ("length", "600 ft"),
        ("net_weight", "7.8 lbf/ft"),
        ("planned_bends", "90 deg"),
        ("rod_diameter", "2 in"),
        ("permitted_pull", "7524 lbf"),
    ],
    run: run_mini,
};

fn run_mini(v: &Values) -> Result<Sheet, Failure> {
    let found = mini_rule(&MiniRule {
        length: Length::from_si(v.si("length")),
        net_weight: ForcePerLength::from_si(v.si("net_weight")),
        planned_bends: Angle::from_si(v.si("planned_bends")),
        rod_diameter: Length::from_si(v.si("rod_diameter")),
    })
    .map_err(|e| refused(&PULL_MINI, &e))?;
    let source = || MINI_RULE.source();
    let mut w = v.open();
    w.result("n1", "planned bends", "a/(pi/2)", found.planned, unit::ONE, source());
    let formula = "(L/152.4)*(0.0508/d)";
    w.result("n2", "unplanned bends", formula, found.unplanned, unit::ONE, source());
    let turns = w.derive("n", "all bends", "n1 + n2", unit::ONE, source());
    w.derive("T_0", "pull of a straight bore", "L*w_b/3", unit::KN, source());
    w.result("T", "pull at the end", "L*w_b/3*1.6^n", found.force.si(), unit::KN, source());
    let mut outputs = vec![
        ("planned", found.planned),
        ("unplanned", found.unplanned),
        ("turns", turns),
        ("force", found.force.si()),
    ];
    let without_reserve = match v.optional("permitted_pull") {
        None => Some("not assessed"),
        Some(_) if found.force.si() == 0.0 => Some("no pull"),
        Some(_) => None,
    };
    if let Some(word) = without_reserve {
        return Ok(Sheet::new(&outputs, w).with_word("reserve", word));
    }
    let reserve = w.derive("r", "reserve", "T_p/T", unit::ONE, source());
    outputs.push(("reserve", reserve));
    Ok(Sheet::new(&outputs, w))
}
