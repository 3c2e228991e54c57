//! Sections of a file on pipe bursting: the old main and what is built into it.

use quantity::unit;
use working::Evidence;

use super::burst::{CHAINAGE, DIAMETER, POINTS, YES_NO};
use super::definition::{Field, Section, Shape, Value, Why, Word};
use super::range::Range;

/// The old main.
pub(super) static HOST: Section = Section {
    key: "host",
    shape: Shape::Table,
    meaning: "The old main that is burst, from survey, records and camera.",
    required: true,
    fields: &[
        Field::other("axis", "axis of the old main as [chainage, level]", Value::Rows(POINTS))
            .example("[[0, 29.9], [118, 29.4]]"),
        Field::integer("dn", "nominal size of the old main, mm", Range::within(50.0, 2_000.0))
            .example("200"),
        Field::choice(
            "temporary_supply",
            "whether customers are supplied while the main is out of service",
            YES_NO,
        )
        .optional("supply during the work is not assessed")
        .example("\"yes\""),
    ],
};

/// Stretches of one material.
pub(super) static STRETCH: Section = Section {
    key: "host.stretch",
    shape: Shape::Array,
    meaning: "A stretch of the old main of one material and size. Stretches follow each other without gap over every \
              run. Repeat the header for every stretch.",
    required: false,
    fields: &[
        Field::quantity("from", "chainage at which it begins", unit::M, CHAINAGE)
            .example("\"0 m\""),
        Field::quantity("to", "chainage at which it ends", unit::M, CHAINAGE).example("\"118 m\""),
        Field::choice("material", "material of the old main", MATERIALS)
            .example("\"grey cast iron\""),
        Field::quantity("inside_diameter", "inside diameter", unit::MM, DIAMETER)
            .example("\"200 mm\""),
        Field::quantity("wall", "wall", unit::MM, Range::above(0.0, 300.0)).example("\"13 mm\""),
        Field::quantity(
            "strength",
            "tensile strength of a brittle host, flow stress of a ductile one",
            unit::MPA,
            Range::above(0.0, 2_000.0),
        )
        .or_rule(
            "the middle of the usual range of the material; the ends of the range make the band",
            Why::new("usual strengths of old pipe", Evidence::FromMemory),
        )
        .example("\"150 MPa\""),
    ],
};

const MATERIALS: &[Word] = &[
    Word { word: "grey cast iron", meaning: "breaks; spun iron can be as tough as ductile iron" },
    Word { word: "ductile iron", meaning: "is split by blades" },
    Word { word: "steel", meaning: "is split by blades" },
    Word { word: "asbestos cement", meaning: "breaks; needs the authority's decision" },
    Word { word: "vitrified clay", meaning: "breaks" },
    Word { word: "plain concrete", meaning: "breaks" },
    Word { word: "reinforced concrete", meaning: "only lightly reinforced or badly deteriorated" },
    Word { word: "prestressed concrete", meaning: "cannot be burst" },
    Word { word: "PVC", meaning: "is split by blades" },
    Word { word: "PE", meaning: "is split by blades; may fold" },
    Word { word: "GRP", meaning: "one contractor's page rules it out" },
];

/// Bends of the old main.
pub(super) static HOST_BEND: Section = Section {
    key: "host.bend",
    shape: Shape::Array,
    meaning: "A bend of the old main in plan or profile. Repeat the header for every bend.",
    required: false,
    fields: &[
        Field::quantity("at", "chainage of its middle", unit::M, CHAINAGE).example("\"64 m\""),
        Field::quantity("angle", "turn of the axis", unit::DEG, Range::above(0.0, 120.0))
            .example("\"4 deg\""),
        Field::quantity(
            "radius",
            "radius over which it turns",
            unit::M,
            Range::above(0.0, 10_000.0),
        )
        .optional("it turns at one point: a fitting or a pulled joint")
        .example("\"200 m\""),
    ],
};

/// What is built into the old main.
pub(super) static FEATURE: Section = Section {
    key: "host.feature",
    shape: Shape::Array,
    meaning: "Something in or on the old main that the head meets. Repeat the header for each.",
    required: false,
    fields: &[
        Field::quantity("at", "chainage", unit::M, CHAINAGE).example("\"58 m\""),
        Field::quantity("to", "chainage at which it ends, of what has a length", unit::M, CHAINAGE)
            .optional("it stands at one place")
            .example("\"61 m\""),
        Field::choice("kind", "what it is", FEATURES).example("\"repair clamp\""),
        Field::choice("action", "what is done about it", ACTIONS)
            .optional("nothing is decided: the run is not ready")
            .example("\"dig out\""),
        Field::text("note", "what else is known of it")
            .optional("nothing more is known")
            .example("\"stainless steel, from records\""),
    ],
};

const FEATURES: &[Word] = &[
    Word { word: "repair clamp", meaning: "clamp or sleeve of steel" },
    Word { word: "coupling", meaning: "coupling or collar" },
    Word { word: "valve", meaning: "valve" },
    Word { word: "hydrant", meaning: "hydrant" },
    Word { word: "tee", meaning: "tee or branch" },
    Word { word: "bend", meaning: "fitting that turns the line" },
    Word { word: "encasement", meaning: "concrete around the pipe" },
    Word { word: "thrust block", meaning: "block of concrete" },
    Word { word: "casing", meaning: "casing pipe" },
    Word { word: "sag", meaning: "low place; the new main follows it" },
    Word { word: "change of diameter", meaning: "taper or another size" },
    Word { word: "collapse", meaning: "length through which no rods pass" },
    Word { word: "liner", meaning: "liner of an earlier repair" },
];

const ACTIONS: &[Word] = &[
    Word { word: "dig out", meaning: "opened and taken out before the head comes" },
    Word { word: "cutter", meaning: "split by blades ahead of the expander" },
    Word { word: "reroute", meaning: "the new main leaves the old line there" },
    Word { word: "pass", meaning: "the head passes it as it is" },
];

/// Connections to the old main.
pub(super) static CONNECTION: Section = Section {
    key: "host.service",
    shape: Shape::Array,
    meaning: "A service connected to the old main: it is dug up and taken off before the head comes, and connected \
              again. Repeat the header for every service.",
    required: false,
    fields: &[
        Field::quantity("at", "chainage", unit::M, CHAINAGE).example("\"12 m\""),
        Field::text("name", "what it serves").optional("it is counted only").example("\"no. 14\""),
        Field::choice("dug_up", "whether it is dug up and taken off before the head comes", YES_NO)
            .optional("services are not assessed: all must be, or their saddles are dragged along")
            .example("\"yes\""),
    ],
};

/// What was decided on asbestos cement.
pub(super) static ASBESTOS: Section = Section {
    key: "host.asbestos",
    shape: Shape::Table,
    meaning: "What the authority decided on a host of asbestos cement. Rules differ: in the USA the federal agency takes \
              a broken pipe as regulated asbestos material and the line as a disposal site; elsewhere such mains were \
              burst under rules of work. The run is not called ready until all of it is filled in.",
    required: false,
    fields: &[
        Field::text("authority", "authority that decided")
            .optional("the run is not ready")
            .example("\"labour inspectorate\""),
        Field::text("notice", "number and date of its decision, with the year in four digits")
            .optional("the run is not ready")
            .example("\"invented 7/2031\""),
        Field::choice("decision", "what it decided", DECISIONS)
            .optional("the run is not ready")
            .example("\"burst\""),
        Field::text(
            "disposal",
            "where fragments and spoil go, or the record of what stays in the ground",
        )
        .optional("the run is not ready")
        .example("\"record in the land register\""),
        Field::text("air_monitoring", "who measures fibres in the air, and when")
            .optional("the run is not ready")
            .example("\"at both pits while the head moves\""),
    ],
};

const DECISIONS: &[Word] = &[
    Word { word: "burst", meaning: "may be burst in place" },
    Word { word: "push out", meaning: "is pushed out and removed" },
    Word { word: "abandon", meaning: "stays whole in the ground; another line is needed" },
];
