use quantity::unit;
use working::Evidence;

use super::definition::{Column, Field, Section, Shape, Value, Why, Word};
use super::range::Range;

const LEVEL: Range = Range::within(-12_000.0, 9_000.0);
const ANGLE: Range = Range::within(0.0, 60.0);
const RADIUS: Range = Range::above(0.0, 1e6);

/// The bore line.
pub(super) static LINE: Section = Section {
    key: "line",
    shape: Shape::Table,
    meaning: "The bore axis. Describe it in exactly one of three ways: by levels and radii (the \
              fields below, with \
              [[line.bend]] for bends in plan), by [[line.element]] tables, or by a survey table.",
    required: true,
    fields: &[
        Field::quantity(
            "entry_level",
            "level of the entry point, where the rig stands and the pull ends",
            unit::M,
            LEVEL,
        )
        .or_rule(
            "the ground line at chainage 0",
            Why::new("bore begins at the ground line", Evidence::Judgement),
        )
        .example("\"4 m\""),
        Field::quantity(
            "exit_level",
            "level of the exit point, where the string goes in; by levels and radii only",
            unit::M,
            LEVEL,
        )
        .or_rule(
            "the ground line at the end of the run",
            Why::new("bore ends at the ground line", Evidence::Judgement),
        )
        .example("\"3.6 m\""),
        Field::quantity(
            "run",
            "horizontal length along the line from entry to exit",
            unit::M,
            Range::above(0.0, 20_000.0),
        )
        .when("the line is described by levels and radii")
        .example("\"220 m\""),
        Field::quantity(
            "entry_angle",
            "angle at the entry point, down from the horizontal",
            unit::DEG,
            ANGLE,
        )
        .when("the line is described by levels and radii, or by elements")
        .usually(ANGLE_USUAL, ANGLE_HINT)
        .example("\"10 deg\""),
        Field::quantity(
            "exit_angle",
            "angle at the exit point, up from the horizontal",
            unit::DEG,
            ANGLE,
        )
        .when("the line is described by levels and radii")
        .usually(ANGLE_USUAL, ANGLE_HINT)
        .example("\"8 deg\""),
        Field::quantity("entry_radius", "radius of the entry curve in profile", unit::M, RADIUS)
            .when("the line is described by levels and radii")
            .usually(RADIUS_USUAL, RADIUS_HINT)
            .example("\"250 m\""),
        Field::quantity("exit_radius", "radius of the exit curve in profile", unit::M, RADIUS)
            .when("the line is described by levels and radii")
            .usually(RADIUS_USUAL, RADIUS_HINT)
            .example("\"300 m\""),
        Field::quantity(
            "lowest_level",
            "level of the bore axis between the two curves",
            unit::M,
            LEVEL,
        )
        .when("the line is described by levels and radii")
        .example("\"-4.3 m\""),
        Field::quantity(
            "entry_easting",
            "easting of the entry point, in the grid of the file of borings",
            unit::M,
            Range::within(-1e8, 1e8),
        )
        .optional("[coordinates] places borings that are given by coordinates; without both they cannot be placed")
        .example("\"500000 m\""),
        Field::quantity(
            "entry_northing",
            "northing of the entry point, in the grid of the file of borings",
            unit::M,
            Range::within(-1e8, 1e8),
        )
        .optional("[coordinates] places borings that are given by coordinates; without both they cannot be placed")
        .example("\"200000 m\""),
        Field::quantity(
            "azimuth",
            "direction of the line at the entry point, clockwise from grid north",
            unit::DEG,
            Range::within(-360.0, 360.0),
        )
        .or(
            "\"0 deg\"",
            Why::new("drawn towards grid north; no check depends on it", Evidence::Judgement),
        ),
        Field::other("survey", "stations of a survey, entry first", Value::Rows(STATION))
            .optional("the line is described in one of the other ways")
            .example("[[0, \"-10 deg\", 0], [6, \"-9.5 deg\", 0], [12, \"-8 deg\", \"0.4 deg\"]]"),
    ],
};

/// What is wrong with a survey whose inclinations look like angles from the vertical.
pub(crate) const FROM_VERTICAL: &str = "inclination is measured from the horizontal and is \
                                        negative downwards; tables of drilling often count from \
                                        the vertical: take 90 deg off each, so that 78 becomes -12";

const RADIUS_USUAL: Range = Range::at_least(30.0);
const RADIUS_HINT: &str = "a bare number is in m; write feet as \"820 ft\"";
const TURN_USUAL: Range = Range::at_least(0.5);
const TURN_HINT: &str = "a bare number is in degrees: radians meant? Write those as \"0.2 rad\"";
const ANGLE_USUAL: Range = Range::at_least(3.0);
const ANGLE_HINT: &str =
    "a bare number is in degrees; write radians as \"0.2 rad\" and a gradient as \"20 %\"";

const STATION: &[Column] = &[
    Column {
        name: "measured distance",
        unit: unit::M,
        range: Range::within(0.0, 50_000.0),
        hint: None,
    },
    Column {
        name: "inclination",
        unit: unit::DEG,
        range: Range::within(-90.0, 90.0),
        hint: Some(FROM_VERTICAL),
    },
    Column { name: "azimuth", unit: unit::DEG, range: Range::within(-360.0, 360.0), hint: None },
];

/// A bend in plan of a line by levels and radii.
pub(super) static BEND: Section = Section {
    key: "line.bend",
    shape: Shape::Array,
    meaning: "A bend in plan, laid over a line by levels and radii. Repeat the header for every \
              bend.",
    required: false,
    fields: &[
        Field::quantity(
            "start",
            "chainage at which the bend begins",
            unit::M,
            Range::within(0.0, 20_000.0),
        )
        .example("\"40 m\""),
        Field::quantity("radius", "radius of the bend in plan", unit::M, RADIUS)
            .usually(RADIUS_USUAL, RADIUS_HINT)
            .example("\"600 m\""),
        Field::quantity(
            "angle",
            "change of direction; positive to the right, negative to the left",
            unit::DEG,
            Range::within(-180.0, 180.0),
        )
        .usually(TURN_USUAL, TURN_HINT)
        .example("\"6 deg\""),
    ],
};

/// A tangent or an arc of a line by elements.
pub(super) static ELEMENT: Section = Section {
    key: "line.element",
    shape: Shape::Array,
    meaning: "A tangent (give length) or an arc (give radius, turn and toward), in order from the \
              entry point.",
    required: false,
    fields: &[
        Field::quantity("length", "length of a tangent", unit::M, Range::above(0.0, 20_000.0))
            .when("the element is a tangent")
            .example("\"25 m\""),
        Field::quantity("radius", "radius of an arc", unit::M, RADIUS)
            .when("the element is an arc")
            .usually(RADIUS_USUAL, RADIUS_HINT)
            .example("\"250 m\""),
        Field::quantity(
            "turn",
            "angle through which an arc turns",
            unit::DEG,
            Range::above(0.0, 180.0),
        )
        .when("the element is an arc")
        .usually(TURN_USUAL, TURN_HINT)
        .example("\"10 deg\""),
        Field::other(
            "toward",
            "where an arc turns to: a word, or the angle from up, clockwise as seen looking \
             forward",
            Value::ChoiceOrQuantity(TOWARD, unit::DEG, Range::within(-360.0, 360.0)),
        )
        .when("the element is an arc")
        .example("\"up\""),
    ],
};

const TOWARD: &[Word] = &[
    Word { word: "up", meaning: "rises" },
    Word { word: "right", meaning: "turns to the right" },
    Word { word: "down", meaning: "dips" },
    Word { word: "left", meaning: "turns to the left" },
];
