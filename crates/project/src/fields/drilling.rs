//! Flows, tools and pump of the stages of drilling.

use quantity::unit;
use working::Evidence;

use super::definition::{Field, Section, Shape, Value, Why, Word};
use super::range::Range;

const FLOW: Range = Range::above(0.0, 20_000.0);
const RATIO: Range = Range::within(0.5, 100.0);
const NOZZLE: Range = Range::above(0.0, 100.0);

const PUMP_FLOW: &str =
    "what the pump delivers: capacity × efficiency of [rig.pump]; else not assessed";
const PUMP_FLOW_WHY: Why = Why::new("the pump runs at its capacity", Evidence::Judgement);

const RATIO_RULE: &str =
    "by the soil of the bore: 3 in sand and gravel, 4 in clay and other fine soil, 2 in rock";
const RATIO_WHY: Why = Why::new(
    "trade sources: 2 to 3 in sand and gravel, 3 to 5 in clay, 2 in rock, volume of fluid per volume of ground cut",
    Evidence::Published,
);

/// The pilot bore.
pub(super) static PILOT: Section = Section {
    key: "bore.pilot",
    shape: Shape::Table,
    meaning: "Drilling the pilot bore: the fluid comes back to the entry pit along the rods.",
    required: false,
    fields: &[
        Field::quantity("flow", "flow of fresh fluid", unit::L_PER_MIN, FLOW)
            .or_rule(PUMP_FLOW, PUMP_FLOW_WHY)
            .example("\"500 l/min\""),
        Field::quantity(
            "fluid_ratio",
            "volume of fluid per volume of ground cut",
            unit::ONE,
            RATIO,
        )
        .or_rule(RATIO_RULE, RATIO_WHY)
        .example("5"),
        Field::integer("nozzles", "number of nozzles of the bit", Range::within(1.0, 100.0))
            .optional("the pressure of the pump is not assessed for the pilot bore")
            .example("3"),
        Field::quantity("nozzle_diameter", "diameter of one nozzle", unit::MM, NOZZLE)
            .optional("the pressure of the pump is not assessed for the pilot bore")
            .example("\"9 mm\""),
        Field::quantity(
            "motor_loss",
            "pressure lost in a mud motor or other tool behind the nozzles",
            unit::BAR,
            Range::within(0.0, 500.0),
        )
        .or("\"0 bar\"", Why::new("jetting without a motor", Evidence::Judgement)),
    ],
};

/// Reaming.
pub(super) static REAMING: Section = Section {
    key: "bore.reaming",
    shape: Shape::Table,
    meaning: "The ream passes, from the exit to the entry pit. Lists have one entry for all passes, or one for each.",
    required: false,
    fields: &[
        Field::other("flow", "flow of fresh fluid", Value::Quantities(unit::L_PER_MIN, FLOW))
            .or_rule(PUMP_FLOW, PUMP_FLOW_WHY)
            .example("[\"800 l/min\"]"),
        Field::other(
            "fluid_ratio",
            "volume of fluid per volume of ground cut",
            Value::Quantities(unit::ONE, RATIO),
        )
        .or_rule(RATIO_RULE, RATIO_WHY)
        .example("[4]"),
        Field::integer("nozzles", "number of nozzles of the reamer", Range::within(1.0, 100.0))
            .optional("the pressure of the pump is not assessed for reaming")
            .example("8"),
        Field::quantity("nozzle_diameter", "diameter of one nozzle", unit::MM, NOZZLE)
            .optional("the pressure of the pump is not assessed for reaming")
            .example("\"8 mm\""),
        Field::choice("outlet", "pit to which the fluid comes back", OUTLETS)
            .or("\"either\"", OUTLET_WHY),
    ],
};

/// Pulling the string in.
pub(super) static PULLING: Section = Section {
    key: "bore.pulling",
    shape: Shape::Table,
    meaning: "The fluid while the string is pulled in.",
    required: false,
    fields: &[
        Field::quantity("flow", "flow of fresh fluid", unit::L_PER_MIN, FLOW)
            .or_rule(PUMP_FLOW, PUMP_FLOW_WHY)
            .example("\"400 l/min\""),
        Field::quantity(
            "speed",
            "speed of the string: it pushes fluid out of the bore",
            unit::M_PER_MIN,
            Range::above(0.0, 60.0),
        )
        .or(
            "\"2 m/min\"",
            Why::new("an ordinary pull; stops lower the average", Evidence::Judgement),
        ),
        Field::choice("outlet", "pit to which the fluid comes back", OUTLETS)
            .or("\"either\"", OUTLET_WHY),
    ],
};

const OUTLET_WHY: Why = Why::new(
    "both pits are computed and the higher pressure is taken until returns are observed",
    Evidence::Judgement,
);

const OUTLETS: &[Word] = &[
    Word { word: "either", meaning: "not known: the worse one counts" },
    Word { word: "entry", meaning: "observed, or kept, on the rig side" },
    Word { word: "exit", meaning: "observed, or kept, on the pipe side" },
];

/// The pump of the rig.
pub(super) static PUMP: Section = Section {
    key: "rig.pump",
    shape: Shape::Table,
    meaning: "The pump of the rig.",
    required: false,
    fields: &[
        Field::quantity("capacity", "flow that it displaces", unit::L_PER_MIN, FLOW)
            .optional("the pump is not assessed, and every stage needs its flow")
            .example("\"1200 l/min\""),
        Field::quantity(
            "pressure",
            "pressure that it may make at that flow",
            unit::BAR,
            Range::above(0.0, 1_000.0),
        )
        .optional("the pressure of the pump is not assessed")
        .example("\"80 bar\""),
        Field::quantity(
            "efficiency",
            "share of its displacement that it delivers",
            unit::ONE,
            Range::above(0.0, 1.0),
        )
        .or("0.9", Why::new("0.85 to 0.95, less with thick fluid", Evidence::FromMemory)),
    ],
};
