//! Friction values, margins and shares of pipe bursting.

use quantity::unit;
use working::Evidence;

use super::definition::{Field, Section, Shape, Why};
use super::range::Range;

/// Friction values, margins and shares.
pub(super) static BURST_FACTORS: Section = Section {
    key: "factors",
    shape: Shape::Table,
    meaning: "Friction values, margins and shares that the checks use.",
    required: false,
    fields: &[
        Field::quantity(
            "friction",
            "friction of the string on the ground, for planning",
            unit::ONE,
            Range::within(0.05, 1.0),
        )
        .or_rule(
            "0.25 lubricated, 0.4 otherwise",
            Why::new(
                "to start from: ductile iron 0.15 to 0.3 lubricated, 0.4 to 0.6 dry in sand",
                Evidence::FromMemory,
            ),
        )
        .example("0.4"),
        Field::quantity(
            "friction_low",
            "friction at the low end of the band",
            unit::ONE,
            Range::within(0.05, 1.0),
        )
        .or_rule(
            "0.15 lubricated, 0.3 otherwise",
            Why::new("low ends of remembered ranges", Evidence::FromMemory),
        )
        .example("0.3"),
        Field::quantity(
            "friction_high",
            "friction at the high end of the band",
            unit::ONE,
            Range::within(0.05, 1.0),
        )
        .or_rule(
            "0.3 lubricated, 0.6 otherwise",
            Why::new("high ends of remembered ranges", Evidence::FromMemory),
        )
        .example("0.6"),
        Field::quantity(
            "stress_ratio",
            "horizontal over vertical stress of the fill",
            unit::ONE,
            Range::within(0.2, 2.0),
        )
        .or("0.5", Why::new("fill at rest", Evidence::FromMemory)),
        Field::quantity(
            "collapsed_share",
            "share of the hole that has closed on the barrels, for planning",
            unit::ONE,
            Range::within(0.0, 1.0),
        )
        .or(
            "0.25",
            Why::new(
                "25 % of the length in the planning guide of a textbook (Najafi p. 271)",
                Evidence::Published,
            ),
        ),
        Field::quantity(
            "restart",
            "factor on the friction of the string when it starts again after a stop",
            unit::ONE,
            Range::within(1.0, 5.0),
        )
        .or("1.35", Why::new("1.2 to 1.5, usual in jacking", Evidence::FromMemory)),
        Field::quantity(
            "rig_share",
            "share of the machine's pull that the checks may use",
            unit::ONE,
            Range::above(0.0, 1.0),
        )
        .or("0.8", Why::new("room for what the survey does not know", Evidence::Judgement)),
        Field::quantity(
            "wall_safety",
            "safety of the reaction wall",
            unit::ONE,
            Range::within(1.0, 10.0),
        )
        .or_rule(
            "1.5; 2 where groundwater stands above the plate's lower edge",
            Why::new(
                "passive earth pressure, 2 in wet sand or near services",
                Evidence::FromMemory,
            ),
        )
        .example("1.5"),
        Field::quantity(
            "joint_angle_share",
            "share of the allowable joint angle that the old main's curves may use",
            unit::ONE,
            Range::above(0.0, 1.0),
        )
        .or(
            "0.8",
            Why::new(
                "pipe-laying standard of one large water utility: 80 % of the published deflection",
                Evidence::Published,
            ),
        ),
        Field::quantity(
            "barrel_share",
            "share of the barrel's proof strength that the checks may use",
            unit::ONE,
            Range::above(0.0, 1.0),
        )
        .or("0.667", Why::new("safety 1.5 against the 0.2 % proof strength", Evidence::Judgement)),
        Field::quantity(
            "heave_ratio",
            "share of the displaced volume that moves the ground",
            unit::ONE,
            Range::above(0.0, 1.0),
        )
        .or_rule(
            "1 in fine soil, 0.8 in dense and 0.5 in loose fill",
            Why::new(
                "1.0 saturated clay, 0.5 to 0.8 sand, 0.2 to 0.5 loose backfill",
                Evidence::FromMemory,
            ),
        )
        .example("0.8"),
        Field::quantity(
            "longest_run",
            "longest run between pits",
            unit::M,
            Range::above(0.0, 2_000.0),
        )
        .or(
            "\"150 m\"",
            Why::new(
                "100 to 150 m are usual; 168 m is the longest run with ductile iron that was found",
                Evidence::Published,
            ),
        ),
        Field::quantity(
            "attention",
            "utilisation from which a check asks for attention",
            unit::ONE,
            Range::above(0.0, 1.0),
        )
        .or("0.85", Why::new("room for what the file does not know", Evidence::Judgement)),
    ],
};
