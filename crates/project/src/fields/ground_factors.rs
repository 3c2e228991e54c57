use quantity::unit;
use working::Evidence;

use super::definition::{Field, Section, Shape, Why, Word};
use super::range::Range;

const SHARE: Range = Range::above(0.0, 1.0);
const SAFETY: Range = Range::within(1.0, 10.0);

/// Margins of the fluid against the ground, and of the ground's movement.
pub(super) static GROUND_FACTORS: Section = Section {
    key: "factors.ground",
    shape: Shape::Table,
    meaning: "Rules and margins for the pressure of the fluid against the ground, and for movement of the ground.",
    required: false,
    fields: &[
        Field::choice("limit_criterion", "what the ground is taken to bear", CRITERIA).or(
            "\"limited cavity\"",
            Why::new(
                "the classic form with the plastic zone limited by cover alone over-predicts in most field studies; the \
                 limit of wall strain is a European idea; all criteria are shown beside the check",
                Evidence::Judgement,
            ),
        ),
        Field::quantity(
            "safety_granular",
            "safety of the pressure that sand, gravel and rock bear",
            unit::ONE,
            SAFETY,
        )
        .or("1.5", Why::new("usual in North American design reports for sand", Evidence::FromMemory)),
        Field::quantity(
            "safety_fine",
            "safety of the pressure that clay and other fine soil bears",
            unit::ONE,
            SAFETY,
        )
        .or("2", Why::new("usual in North American design reports for clay", Evidence::FromMemory)),
        Field::quantity(
            "overburden",
            "pressure over the weight of all that lies above, beyond which nothing may act",
            unit::ONE,
            Range::within(0.5, 5.0),
        )
        .or("1.5", Why::new("1.0 to 1.5 for shallow cover", Evidence::FromMemory)),
        Field::quantity(
            "wall_strain",
            "strain of the bore's wall up to which the plastic zone may grow",
            unit::ONE,
            Range::above(0.0, 0.2),
        )
        .or("\"5 %\"", Why::new("NEN 3650-1, for sand", Evidence::FromMemory)),
        Field::quantity(
            "plastic_zone_granular",
            "share of the cover up to which the plastic zone may grow in sand and gravel",
            unit::ONE,
            SHARE,
        )
        .or(
            "0.6667",
            Why::new("value of the literature, quoted in a conference paper of 2019", Evidence::Published),
        ),
        Field::quantity(
            "plastic_zone_fine",
            "share of the cover up to which the plastic zone may grow in fine soil",
            unit::ONE,
            SHARE,
        )
        .or(
            "0.5",
            Why::new("value of the literature, quoted in a conference paper of 2019", Evidence::Published),
        ),
        Field::quantity(
            "returns_density",
            "density of the returns up to which they are taken to flow well",
            unit::KG_PER_M3,
            Range::within(1_000.0, 2_500.0),
        )
        .or(
            "\"1300 kg/m3\"",
            Why::new("1050 to 1200 is good, above 1250 to 1300 is a warning", Evidence::FromMemory),
        ),
        Field::quantity(
            "annulus_closing",
            "share of the annulus around the pipe that closes and settles the ground",
            unit::ONE,
            SHARE,
        )
        .or(
            "0.5",
            Why::new("0.1 to 0.5 where the fluid sets, up to 1 otherwise", Evidence::FromMemory),
        ),
        Field::quantity(
            "trough_granular",
            "half-width of the settlement trough over depth in sand, to the point of inflection",
            unit::ONE,
            Range::within(0.1, 1.0),
        )
        .or("0.35", Why::new("0.25 to 0.45", Evidence::FromMemory)),
        Field::quantity(
            "trough_fine",
            "half-width of the settlement trough over depth in fine soil, to the point of inflection",
            unit::ONE,
            Range::within(0.1, 1.0),
        )
        .or("0.5", Why::new("0.4 to 0.6", Evidence::FromMemory)),
        Field::quantity(
            "boring_spacing",
            "greatest distance between borings",
            unit::M,
            Range::above(0.0, 10_000.0),
        )
        .or("\"250 m\"", Why::new("one near each end, else every 150 to 250 m", Evidence::FromMemory)),
        Field::quantity(
            "boring_depth",
            "how far borings reach below the bore",
            unit::M,
            Range::within(0.0, 100.0),
        )
        .or("\"5 m\"", Why::new("5 to 10 m or more", Evidence::FromMemory)),
    ],
};

const CRITERIA: &[Word] = &[
    Word {
        word: "limited cavity",
        meaning: "least of the cavity's limits by wall strain, by cover and by a weaker layer; undrained as well in fine \
                  soil; joints open in rock",
    },
    Word {
        word: "cavity by cover",
        meaning: "the classic form: plastic zone limited by cover and by a weaker layer only",
    },
    Word { word: "first yield", meaning: "the wall of the bore begins to yield" },
    Word { word: "tension", meaning: "the wall of the bore cracks, elastic ground" },
];
