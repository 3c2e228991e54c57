use quantity::unit;
use working::Evidence;

use super::definition::{Field, Section, Shape, Why};
use super::range::Range;

const FRICTION: Range = Range::within(0.0, 2.0);
const SHARE: Range = Range::above(0.0, 1.0);
const STRESS: Range = Range::within(0.0, 5_000.0);

/// Friction values, margins and shares.
pub(super) static FACTORS: Section = Section {
    key: "factors",
    shape: Shape::Table,
    meaning: "Friction values, margins and shares that the checks use.",
    required: false,
    fields: &[
        Field::quantity(
            "friction_bore",
            "friction of the string against the bore wall, for the checks",
            unit::ONE,
            FRICTION,
        )
        .or(
            "0.3",
            Why::new(
                "ASTM F1962 as quoted in Najafi, Trenchless Technology Piping, ch. 5",
                Evidence::Published,
            ),
        )
        .usually(
            Range::above(0.0, 0.8),
            "0.2 to 0.5 in most bores; without friction only weight and fluid pull back",
        ),
        Field::quantity(
            "friction_bore_expected",
            "friction expected in a well-kept bore, shown beside the checks",
            unit::ONE,
            FRICTION,
        )
        .or(
            "0.25",
            Why::new(
                "a handbook of polyethylene pipe, ch. 12, as quoted in a public note",
                Evidence::Published,
            ),
        ),
        Field::quantity(
            "fluid_stress",
            "shear stress of the fluid on the string, for the checks",
            unit::PA,
            STRESS,
        )
        .or("\"172 Pa\"", Why::new("0.025 psi of North American practice", Evidence::FromMemory)),
        Field::quantity(
            "fluid_stress_expected",
            "shear stress of the fluid expected, shown beside the checks",
            unit::PA,
            STRESS,
        )
        .or("\"50 Pa\"", Why::new("European practice (NEN 3650)", Evidence::FromMemory)),
        Field::quantity(
            "restart",
            "factor on the wall friction when the string starts again after a stop",
            unit::ONE,
            Range::within(1.0, 5.0),
        )
        .or(
            "1.3",
            Why::new("no published value was found; 1.2 to 1.5 seems usual", Evidence::Judgement),
        ),
        Field::quantity(
            "joint_angle_share",
            "share of the allowable joint angle that the planned line may use; the rest is for \
             steering",
            unit::ONE,
            SHARE,
        )
        .or(
            "0.8",
            Why::new(
                "pipe-laying standard of one large water utility: 80 % of the published deflection",
                Evidence::Published,
            ),
        ),
        Field::quantity(
            "rig_share",
            "share of the rig's pull that the checks may use",
            unit::ONE,
            SHARE,
        )
        .or("0.67", Why::new("rig at least 1.5 times the predicted force", Evidence::FromMemory)),
        Field::quantity(
            "barrel_share",
            "share of the barrel's proof strength that the checks may use",
            unit::ONE,
            SHARE,
        )
        .or("0.667", Why::new("safety 1.5 against the 0.2 % proof strength", Evidence::Judgement)),
        Field::quantity(
            "buckling",
            "safety against buckling of the pipe's ring",
            unit::ONE,
            Range::within(1.0, 10.0),
        )
        .or(
            "2",
            Why::new(
                "ASTM F1962 as quoted in Najafi, Trenchless Technology Piping, p. 225",
                Evidence::Published,
            ),
        ),
        Field::quantity(
            "bore_ratio",
            "bore diameter over the largest outside diameter of the string that the check asks for",
            unit::ONE,
            Range::within(1.0, 5.0),
        )
        .or_rule(
            "1.5, or what 300 mm more than the largest outside diameter gives where that is less; \
             1.5 where the socket is not known",
            Why::new(
                "thresholds of a good-practice guideline; an industry association's 1.5 is \
                 published and shown beside the check",
                Evidence::FromMemory,
            ),
        )
        .example("1.5"),
        Field::quantity(
            "attention",
            "utilisation from which a check asks for attention",
            unit::ONE,
            SHARE,
        )
        .or("0.85", Why::new("room for what the file does not know", Evidence::Judgement)),
        Field::quantity(
            "entry_angle_limit",
            "steepest entry angle that the check accepts",
            unit::DEG,
            Range::above(0.0, 60.0),
        )
        .or(
            "\"20 deg\"",
            Why::new(
                "8 to 20 deg, Najafi, Trenchless Technology Piping, p. 192",
                Evidence::Published,
            ),
        ),
        Field::quantity(
            "exit_angle_limit",
            "steepest exit angle that the check accepts, so that the string need not be lifted \
             high",
            unit::DEG,
            Range::above(0.0, 60.0),
        )
        .or(
            "\"10 deg\"",
            Why::new(
                "5 to 10 deg in a book extract on entry and exit angles; below 10 deg for large \
                 pipe, Najafi, \
                 Trenchless Technology Piping, p. 192",
                Evidence::Published,
            ),
        ),
        Field::quantity(
            "position_spread",
            "standard deviation of the bore's position sideways and up, per measured distance",
            unit::ONE,
            Range::within(0.0, 0.2),
        )
        .or(
            "0.002",
            Why::new(
                "bias of 0.1 % in pitch and 0.1 deg in azimuth together give 0.2 m per 100 m; \
                 guidance tracked from \
                 the surface or by gyroscope is taken to be that good, an untracked magnetic tool \
                 is several times \
                 worse",
                Evidence::Judgement,
            ),
        ),
        Field::quantity(
            "position_multiple",
            "how many standard deviations of position a clearance must keep",
            unit::ONE,
            Range::within(0.0, 10.0),
        )
        .or("2", Why::new("2 to 3 are usual", Evidence::Judgement)),
    ],
};
