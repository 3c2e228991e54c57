use quantity::unit;
use working::Evidence;

use super::definition::{Column, Field, Section, Shape, Value, Why, Word};
use super::range::Range;

const LEVEL: Range = Range::within(-12_000.0, 9_000.0);
const CHAINAGE: Range = Range::within(-20_000.0, 20_000.0);
const DEPTH: Range = Range::above(0.0, 500.0);
const WEIGHT: Range = Range::within(8.0, 35.0);
const STRENGTH: Range = Range::within(0.0, 100_000.0);

/// Borings may stand in a file of their own.
pub(super) static GROUND: Section = Section {
    key: "ground",
    shape: Shape::Table,
    meaning: "The soils around the bore. Without soils and borings the pressures of the fluid are not compared with \
              what the ground bears, and movement of the ground is not assessed.",
    required: false,
    fields: &[
        Field::text(
            "file",
            "file with borings beside this one: AGS4, or a CSV table as in docs/ground-data.md; its soils are \
             matched by the codes of [[ground.soil]]; borings without strata, or more than 100 m before the entry or \
             beyond the exit, are left out with a warning",
        )
        .optional("the borings are those of [[ground.boring]]")
        .example("\"creek-ground.ags\""),
    ],
};

const TYPICAL: &str = "a typical value of the kind, its lower end; must be given for fill";

const TYPICAL_WHY: Why = Why::new(
    "a published table for preliminary design (Kany), reprinted in a text on tunnel engineering",
    Evidence::Published,
);

/// The soils of the site.
pub(super) static SOIL: Section = Section {
    key: "ground.soil",
    shape: Shape::Array,
    meaning: "A soil of the site. What is not given is taken from a table of typical values of its kind and listed \
              as an assumption: replace it by what was measured. Repeat the header for every soil.",
    required: false,
    fields: &[
        Field::text("name", "name of the soil, unique; strata of the borings are named by it")
            .example("\"river sand\""),
        Field::choice("kind", "what the soil is", KINDS).example("\"medium dense sand\""),
        Field::other("codes", "codes by which the file of borings calls it, and no other soil", Value::Texts)
            .optional("a code of the file must be the soil's name")
            .example("[\"RTD\", \"SAND\"]"),
        Field::quantity("unit_weight", "unit weight above the water", unit::KN_PER_M3, WEIGHT)
            .or_rule(TYPICAL, TYPICAL_WHY)
            .usually(Range::within(10.0, 28.0), "a bare number is in kN/m3")
            .example("\"17 kN/m3\""),
        Field::quantity(
            "saturated_unit_weight",
            "unit weight below the water, with all voids full",
            unit::KN_PER_M3,
            WEIGHT,
        )
        .or_rule(TYPICAL, TYPICAL_WHY)
        .usually(Range::within(10.0, 28.0), "a bare number is in kN/m3")
        .example("\"17.5 kN/m3\""),
        Field::quantity(
            "friction_angle",
            "effective friction angle",
            unit::DEG,
            Range::within(0.0, 60.0),
        )
        .or_rule(TYPICAL, TYPICAL_WHY)
        .example("\"24 deg\""),
        Field::quantity("cohesion", "effective cohesion", unit::KPA, STRENGTH)
            .or_rule(TYPICAL, TYPICAL_WHY)
            .example("\"5 kPa\""),
        Field::other(
            "undrained_strength",
            "undrained shear strength",
            Value::ChoiceOrQuantity(NO_STRENGTH, unit::KPA, Range::above(0.0, 100_000.0)),
        )
        .or_rule("a typical value of the kind, its lower end; none for sand and gravel", TYPICAL_WHY)
        .example("\"20 kPa\""),
        Field::quantity(
            "shear_modulus",
            "shear modulus at strains of some percent, not that of a shear wave",
            unit::MPA,
            Range::above(0.0, 100_000.0),
        )
        .or_rule(TYPICAL, TYPICAL_WHY)
        .usually(
            Range::within(0.1, 200.0),
            "a bare number is in MPa; 1 to 30 are usual at strains of some percent",
        )
        .example("\"2 MPa\""),
        Field::quantity(
            "k0",
            "effective horizontal over effective vertical stress at rest",
            unit::ONE,
            Range::above(0.0, 4.0),
        )
        .or_rule(
            "1 − sin(friction_angle); 0.5 for rock",
            Why::new(
                "ground that was never loaded more than today; loaded ground has more (Mesri and Hayat 1993, in an \
                 open geotechnical library); rock is judgement",
                Evidence::Published,
            ),
        )
        .example("0.6"),
        Field::quantity("tensile_strength", "tensile strength", unit::KPA, STRENGTH)
            .or("\"0 kPa\"", Why::new("soil and jointed rock bear no tension", Evidence::Judgement)),
        Field::quantity(
            "piezometric_level",
            "level to which water rises in a standpipe in this soil, where it is confined",
            unit::M,
            LEVEL,
        )
        .optional("its water stands at the level of the groundwater")
        .example("\"2.4 m\""),
    ],
};

const NO_STRENGTH: &[Word] =
    &[Word { word: "none", meaning: "the soil drains as fast as it is loaded" }];

/// The borings.
pub(super) static BORING: Section = Section {
    key: "ground.boring",
    shape: Shape::Array,
    meaning: "A boring. Between borings the strata are joined by straight lines; a stratum that the next boring has \
              not got pinches out at it. Repeat the header for every boring.",
    required: false,
    fields: &[
        Field::text("name", "name of the boring, unique").example("\"B1\""),
        Field::quantity("chainage", "chainage of the boring along the line", unit::M, CHAINAGE)
            .example("\"12 m\""),
        Field::quantity(
            "offset",
            "distance from the line, positive to the right looking from entry to exit",
            unit::M,
            Range::within(-500.0, 500.0),
        )
        .or("\"0 m\"", Why::new("on the line, the worst place for a boring", Evidence::Judgement)),
        Field::quantity("level", "level of the ground at the boring", unit::M, LEVEL)
            .or_rule(
                "the ground line at its chainage",
                Why::new("boring beside the line", Evidence::Judgement),
            )
            .example("\"4.1 m\""),
        Field::other(
            "strata",
            "strata from the top down as [soil, depth of its base below the ground at the boring]",
            Value::NamedRows("soil", BASES),
        )
        .example("[[\"river sand\", 18.0]]"),
        Field::quantity(
            "groundwater_level",
            "level of the groundwater in the boring",
            unit::M,
            LEVEL,
        )
        .optional("the groundwater level of the site is taken")
        .example("\"1.6 m\""),
        Field::other(
            "spt",
            "standard penetration tests as [depth, blows for 300 mm]",
            Value::Rows(BLOWS),
        )
        .optional("no value is compared with correlations to blow counts")
        .example("[[2.0, 3], [6.0, 18]]"),
        Field::other(
            "cpt",
            "cone penetration as [depth, resistance of the tip]",
            Value::Rows(CONE),
        )
        .optional("no value is compared with correlations to cone resistance")
        .example("[[2.0, 0.6], [6.0, 9.5]]"),
    ],
};

const BASES: &[Column] =
    &[Column { name: "depth of the base", unit: unit::M, range: DEPTH, hint: None }];

const BLOWS: &[Column] = &[
    Column { name: "depth", unit: unit::M, range: DEPTH, hint: None },
    Column { name: "blows", unit: unit::ONE, range: Range::within(0.0, 200.0), hint: None },
];

const CONE: &[Column] = &[
    Column { name: "depth", unit: unit::M, range: DEPTH, hint: None },
    Column {
        name: "resistance",
        unit: unit::MPA,
        range: Range::within(0.0, 150.0),
        hint: Some("a bare number is in MPa; write kilopascals as \"600 kPa\""),
    },
];

const KINDS: &[Word] = &[
    Word { word: "loose sand", meaning: "up to 10 blows" },
    Word { word: "medium dense sand", meaning: "10 to 30 blows" },
    Word { word: "dense sand", meaning: "above 30 blows" },
    Word { word: "gravelly sand", meaning: "30 to 50 % of gravel by weight" },
    Word { word: "sandy gravel", meaning: "50 to 85 % of gravel by weight" },
    Word { word: "gravel", meaning: "without sand" },
    Word { word: "coarse gravel", meaning: "also cobbles" },
    Word { word: "silt", meaning: "silt" },
    Word { word: "soft clay", meaning: "undrained strength below 25 kPa" },
    Word { word: "stiff clay", meaning: "undrained strength 25 to 50 kPa" },
    Word { word: "very stiff clay", meaning: "undrained strength above 50 kPa" },
    Word { word: "soft loam", meaning: "sandy clay or clayey silt, soft" },
    Word { word: "stiff loam", meaning: "sandy clay or clayey silt, stiff" },
    Word { word: "till", meaning: "glacial till" },
    Word { word: "organic mud", meaning: "soft mud with organic matter" },
    Word { word: "marine mud", meaning: "mud of sea or estuary" },
    Word { word: "peat", meaning: "peat" },
    Word { word: "fill", meaning: "filled ground; its values must be given" },
    Word { word: "rock", meaning: "rock; its unit weights must be given" },
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_words_are_those_of_the_kinds_of_soil() {
        let words: Vec<_> = KINDS.iter().map(|w| w.word).collect();
        let kinds: Vec<_> = ground::SoilKind::ALL.iter().map(|k| k.word()).collect();
        assert_eq!(words, kinds);
    }
}
