use quantity::unit;
use working::Evidence;

use super::definition::{Column, Field, Section, Shape, Value, Why, Word};
use super::range::Range;

const LEVEL: Range = Range::within(-12_000.0, 9_000.0);
const CHAINAGE: Range = Range::within(-20_000.0, 20_000.0);
const ZONE: Range = Range::within(0.0, 20_000.0);

/// Surroundings of the bore.
pub(super) static SITE: Section = Section {
    key: "site",
    shape: Shape::Table,
    meaning: "The ground above the bore and the water in it. Levels are above the datum of the \
              project, upwards \
              positive; chainage is the horizontal distance along the line from the entry point.",
    required: true,
    fields: &[
        Field::other(
            "ground",
            "ground line as [chainage, level], from the entry to the exit point; the bed where \
             there is water",
            Value::Rows(GROUND),
        )
        .example("[[0, 4.0], [90, 3.8], [98, 1.2], [104, 1.2], [112, 3.6], [220, 3.6]]"),
        Field::quantity("free_water_level", "highest level of river, canal or sea", unit::M, LEVEL)
            .optional("it is taken that no free water stands above the ground line")
            .example("\"2.8 m\""),
        Field::quantity(
            "low_water_level",
            "lowest level of river, canal or sea while the bore is drilled: less water over the bed bears less \
             pressure of the fluid",
            unit::M,
            LEVEL,
        )
        .or_rule(
            "the lower of free_water_level and groundwater_level, where both are given; else what the ground bears is not assessed",
            Why::new("the water is not lower than the ground beside it lets it be", Evidence::Judgement),
        )
        .example("\"0.2 m\""),
        Field::quantity("groundwater_level", "level of the groundwater table", unit::M, LEVEL)
            .optional(
                "the pressure of groundwater on the emptied main is left out, and what the ground bears is not \
                 assessed unless the borings give it",
            )
            .example("\"1.5 m\""),
        Field::quantity(
            "required_cover",
            "ground that the crown of the bore must keep above itself outside the end zones",
            unit::M,
            Range::within(0.0, 500.0),
        )
        .or_rule(
            "by the nominal size of the pipe, with own data by its outside diameter: 4 ft below \
             4 in, 8 ft to 12 in, 12 ft to 24 in, 16 ft above",
            Why::new(
                "cover under road and shoulder by pipe size, Najafi p. 345 table 8.1 (published \
                 for roads), taken for any ground",
                Evidence::Judgement,
            ),
        )
        .usually(Range::at_least(0.5), "a bare number is in m; write feet as \"12 ft\"")
        .example("\"3.7 m\""),
        Field::quantity(
            "end_zone_entry",
            "stretch behind the entry point in which no cover is required",
            unit::M,
            ZONE,
        )
        .or_rule(END_ZONE, END_ZONE_WHY)
        .example("\"30 m\""),
        Field::quantity(
            "end_zone_exit",
            "stretch before the exit point in which no cover is required",
            unit::M,
            ZONE,
        )
        .or_rule(END_ZONE, END_ZONE_WHY)
        .example("\"36 m\""),
    ],
};

const END_ZONE: &str = "where the straight end would reach 1.2 × required_cover below level \
                        ground: \
                        (1.2 × required_cover + half the final diameter) / tan(angle)";

const END_ZONE_WHY: Why =
    Why::new("a straight bore cannot have cover earlier; one fifth more", Evidence::Judgement);

const GROUND: &[Column] = &[
    Column { name: "chainage", unit: unit::M, range: CHAINAGE, hint: None },
    Column { name: "level", unit: unit::M, range: LEVEL, hint: None },
];

/// What the bore must keep clear of.
pub(super) static OBSTACLE: Section = Section {
    key: "site.obstacle",
    shape: Shape::Array,
    meaning: "What the bore must keep clear of: a stretch with an underside (from, to, \
              underside), or something round \
              that crosses the line (at, level, diameter). Repeat the header for every obstacle.",
    required: false,
    fields: &[
        Field::text("name", "name of the obstacle, unique; the id of its check is made of it")
            .example("\"lane\""),
        Field::choice("kind", "what the obstacle is", KINDS).example("\"road\""),
        Field::quantity("from", "chainage at which the obstacle begins", unit::M, CHAINAGE)
            .when("the obstacle is a stretch")
            .example("\"150 m\""),
        Field::quantity("to", "chainage at which the obstacle ends", unit::M, CHAINAGE)
            .when("the obstacle is a stretch")
            .example("\"157 m\""),
        Field::quantity("underside", "level of the obstacle's underside", unit::M, LEVEL)
            .when("the obstacle is a stretch")
            .example("\"3.1 m\""),
        Field::quantity("at", "chainage at which something round crosses", unit::M, CHAINAGE)
            .when("the obstacle is round")
            .example("\"162 m\""),
        Field::quantity("level", "level of the axis of something round", unit::M, LEVEL)
            .when("the obstacle is round")
            .example("\"1.4 m\""),
        Field::quantity(
            "diameter",
            "outside diameter of something round",
            unit::MM,
            Range::above(0.0, 20_000.0),
        )
        .when("the obstacle is round")
        .usually(Range::at_least(20.0), "a bare number is in mm; write metres as \"0.3 m\"")
        .example("\"300 mm\""),
        Field::quantity(
            "clearance",
            "ground that must stay between the bore and the obstacle",
            unit::M,
            Range::within(0.0, 500.0),
        )
        .optional("the clearance of this obstacle is not assessed")
        .example("\"3 m\""),
        Field::quantity(
            "settlement_limit",
            "settlement that the obstacle bears; not for a watercourse",
            unit::MM,
            Range::above(0.0, 1_000.0),
        )
        .optional("settlement of this obstacle is not assessed")
        .example("\"40 mm\""),
        Field::quantity(
            "heave_limit",
            "heave that the obstacle bears; not for a watercourse",
            unit::MM,
            Range::above(0.0, 1_000.0),
        )
        .optional("heave of this obstacle is not assessed")
        .example("\"10 mm\""),
    ],
};

const KINDS: &[Word] = &[
    Word { word: "watercourse", meaning: "river, creek, canal or ditch; the underside is its bed" },
    Word { word: "road", meaning: "road, lane or path; the underside is that of the pavement" },
    Word { word: "railway", meaning: "the underside is that of the ballast" },
    Word { word: "embankment", meaning: "dike or flood bank; the underside is its base" },
    Word { word: "main", meaning: "water, gas or other pressure main" },
    Word { word: "cable", meaning: "cable or duct" },
    Word { word: "drain", meaning: "drain or sewer" },
    Word { word: "building", meaning: "building or foundation" },
    Word { word: "other", meaning: "anything else" },
];
