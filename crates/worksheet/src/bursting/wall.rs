use pull::bursting::{
    MOBILISATION, Plate, REACTION_WALL, WallOpening, WallSoil, passive_wedge,
    reaction_wall_with_opening,
};
use quantity::{Angle, Length, Pressure, UnitWeight, unit};
use working::{Evidence, Source};

use super::{UNIT_WEIGHT, not_negative};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::pulling::refused;
use crate::run::{Failure, Sheet, Values};

static NO_SPREAD: Source =
    Source::new("the wedge at the sides is left out: the smaller resistance", Evidence::Judgement);
static USUAL: Source = Source::new(
    "usual in soil mechanics; 2 in sand with water or near services",
    Evidence::FromMemory,
);
const OPENING: Source =
    Source::new("area times the pressure at its axis, exact", Evidence::Derived);
const WEDGE: Source =
    Source::new("slip plane from the plate's lower edge, exact", Evidence::Derived);

pub(super) static REACTION_WALL_SHEET: Worksheet = Worksheet {
    id: "reaction-wall",
    title: "passive resistance of the wall that holds the rig",
    inputs: &[
        Input::quantity("width", "B", "width of the plate", unit::M, Range::Positive),
        not_negative("depth_top", "H_1", "depth of the plate's top", unit::M),
        Input::quantity(
            "depth_bottom",
            "H_2",
            "depth of the plate's bottom",
            unit::M,
            Range::Positive,
        ),
        UNIT_WEIGHT,
        Input::quantity(
            "friction_angle",
            "phi",
            "friction angle; 0 for clay without drainage",
            unit::DEG,
            Range::Within(0.0, 1.5),
        ),
        not_negative("cohesion", "c", "cohesion, or undrained strength", unit::KPA),
        Input::quantity(
            "opening_diameter",
            "D_o",
            "opening for the pipe, through which the expander arrives; left out: none",
            unit::MM,
            Range::SIZE,
        )
        .optional(),
        Input::quantity("opening_depth", "z_o", "depth of its axis", unit::M, Range::Positive)
            .optional(),
        Input::quantity(
            "spread_factor",
            "s",
            "wedge at the sides of a narrow plate, 1 to 2.5",
            unit::ONE,
            Range::Within(1.0, 2.5),
        )
        .or("1", &NO_SPREAD),
        Input::quantity("safety", "S", "resistance over pull", unit::ONE, Range::Within(1.0, 10.0))
            .or("1.5", &USUAL),
    ],
    outputs: &[
        Output::new("resistance", "ultimate, less the opening", unit::KN),
        Output::new("full_resistance", "ultimate, of the full plate", unit::KN),
        Output::new("opening_loss", "what the opening takes away", unit::KN),
        Output::new("allowable_pull", "with the safety", unit::KN),
        Output::new("wedge_length", "head inside the wedge from here on", unit::M),
        Output::new("travel_low", "least travel of the plate at full resistance", unit::MM),
        Output::new("travel_high", "largest travel of the plate", unit::MM),
    ],
    source: REACTION_WALL.source(),
    example: &[
        ("width", "2 m"),
        ("depth_top", "0.8 m"),
        ("depth_bottom", "2.3 m"),
        ("unit_weight", "18 kN/m3"),
        ("friction_angle", "30 deg"),
        ("cohesion", "0 kPa"),
        ("opening_diameter", "300 mm"),
        ("opening_depth", "1.55 m"),
    ],
    run: run_wall,
};

fn run_wall(v: &Values) -> Result<Sheet, Failure> {
    let at = |e| refused(&REACTION_WALL_SHEET, &e);
    let opening = match (v.optional("opening_diameter"), v.optional("opening_depth")) {
        (None, None) => None,
        _ => Some(WallOpening {
            diameter: Length::from_si(v.needed("opening_diameter", "with opening_depth")?),
            depth: Length::from_si(v.needed("opening_depth", "with opening_diameter")?),
        }),
    };
    let phi = Angle::from_si(v.si("friction_angle"));
    let bottom = Length::from_si(v.si("depth_bottom"));
    let plate = Plate {
        width: Length::from_si(v.si("width")),
        depth_top: Length::from_si(v.si("depth_top")),
        depth_bottom: bottom,
        spread: v.si("spread_factor"),
    };
    let soil = WallSoil {
        unit_weight: UnitWeight::from_si(v.si("unit_weight")),
        friction_angle: phi,
        cohesion: Pressure::from_si(v.si("cohesion")),
    };
    let found = reaction_wall_with_opening(&plate, &soil, opening.as_ref()).map_err(at)?;
    let wedge = passive_wedge(bottom, phi).map_err(at)?.si();
    let (full, lost, net) = (found.full.si(), found.opening.si(), found.net.si());
    let source = || REACTION_WALL.source();
    let mut w = v.open();
    w.derive("K_p", "passive ratio", "tan(pi/4 + phi/2)^2", unit::ONE, source());
    let formula = "s*B*(K_p*gamma*(H_2^2 - H_1^2)/2 + 2*c*sqrt(K_p)*(H_2 - H_1))";
    w.result("R_f", "resistance of the full plate", formula, full, unit::KN, source());
    let formula = match opening {
        Some(_) => "s*pi/4*D_o^2*(K_p*gamma*z_o + 2*c*sqrt(K_p))",
        None => "0",
    };
    w.result("R_o", "what the opening takes away", formula, lost, unit::KN, OPENING);
    w.result("R", "resistance less the opening", "R_f - R_o", net, unit::KN, source());
    let allowable = w.derive("F", "allowable pull", "R/S", unit::KN, source());
    let formula = "H_2*tan(pi/4 + phi/2)";
    w.result("x", "reach of the wedge", formula, wedge, unit::M, WEDGE);
    let travel = [Some(MOBILISATION.low_si()), MOBILISATION.high_si()]
        .map(|share| share.unwrap_or_default() * (bottom.si() - plate.depth_top.si()));
    let source = || MOBILISATION.source;
    let formula = "0.01*(H_2 - H_1)";
    w.result("u_1", "least travel at full resistance", formula, travel[0], unit::MM, source());
    let formula = "0.05*(H_2 - H_1)";
    w.result("u_2", "largest travel", formula, travel[1], unit::MM, source());
    Ok(Sheet::new(
        &[
            ("resistance", net),
            ("full_resistance", full),
            ("opening_loss", lost),
            ("allowable_pull", allowable),
            ("wedge_length", wedge),
            ("travel_low", travel[0]),
            ("travel_high", travel[1]),
        ],
        w,
    ))
}
