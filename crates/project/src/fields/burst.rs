//! Sections of a file on pipe bursting: the site, the old main, the pits.

use quantity::unit;
use working::Evidence;

use super::definition::{Column, Field, Section, Shape, Value, Why, Word};
use super::range::Range;

const LEVEL: Range = Range::within(-12_000.0, 9_000.0);
const CHAINAGE: Range = Range::within(-20_000.0, 20_000.0);
const DIAMETER: Range = Range::within(50.0, 5_000.0);
const MOVEMENT: Range = Range::above(0.0, 1_000.0);

/// The street above the old main.
pub(super) static STREET: Section = Section {
    key: "site",
    shape: Shape::Table,
    meaning: "The ground above the old main. Levels are above the datum of the project, upwards positive; chainage is \
              the horizontal distance along the old main.",
    required: true,
    fields: &[
        Field::other("ground", "ground line as [chainage, level]", Value::Rows(POINTS))
            .example("[[0, 31.4], [60, 31.2], [118, 30.9]]"),
        Field::quantity("groundwater_level", "level of the groundwater table", unit::M, LEVEL)
            .optional("the trench is taken as dry")
            .example("\"28 m\""),
        Field::quantity("heave_limit", "heave of the surface that is borne", unit::MM, MOVEMENT)
            .optional("heave of the surface is not assessed")
            .example("\"15 mm\""),
        Field::quantity(
            "settlement_limit",
            "settlement of the surface that is borne once the gap around the new main has closed",
            unit::MM,
            MOVEMENT,
        )
        .optional("settlement of the surface is not assessed")
        .example("\"15 mm\""),
    ],
};

const POINTS: &[Column] = &[
    Column { name: "chainage", unit: unit::M, range: CHAINAGE, hint: None },
    Column { name: "level", unit: unit::M, range: LEVEL, hint: None },
];

/// What lies near the old main.
pub(super) static NEIGHBOUR: Section = Section {
    key: "site.neighbour",
    shape: Shape::Array,
    meaning: "What lies near the old main and must not be moved too far: something that crosses it (at), or runs \
              beside it (from, to, offset). Repeat the header for every neighbour.",
    required: false,
    fields: &[
        Field::text("name", "name of the neighbour, unique; the id of its check is made of it")
            .example("\"gas main\""),
        Field::choice("kind", "what it is", NEIGHBOURS).example("\"main\""),
        Field::quantity("at", "chainage at which it crosses", unit::M, CHAINAGE)
            .when("it crosses")
            .example("\"41 m\""),
        Field::quantity("from", "chainage at which it begins to run beside", unit::M, CHAINAGE)
            .when("it runs beside")
            .example("\"0 m\""),
        Field::quantity("to", "chainage at which it ends to run beside", unit::M, CHAINAGE)
            .when("it runs beside")
            .example("\"118 m\""),
        Field::quantity(
            "offset",
            "horizontal distance of its axis from that of the old main",
            unit::M,
            Range::within(-50.0, 50.0),
        )
        .when("it runs beside")
        .example("\"1.1 m\""),
        Field::quantity(
            "level",
            "level of its axis; of the underside of a building's foundation",
            unit::M,
            LEVEL,
        )
        .example("\"30.1 m\""),
        Field::quantity(
            "diameter",
            "outside diameter; 0 for a foundation or a cable",
            unit::MM,
            Range::within(0.0, 20_000.0),
        )
        .or("\"0 mm\"", Why::new("as thin as a cable", Evidence::Judgement)),
        Field::quantity("allowance", "movement that it bears", unit::MM, MOVEMENT)
            .optional("its movement is shown and not assessed")
            .example("\"10 mm\""),
    ],
};

const NEIGHBOURS: &[Word] = &[
    Word { word: "main", meaning: "water, gas or other pressure main" },
    Word { word: "cable", meaning: "cable or duct" },
    Word { word: "drain", meaning: "drain or sewer" },
    Word { word: "building", meaning: "building or foundation" },
    Word { word: "other", meaning: "anything else" },
];

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

const YES_NO: &[Word] =
    &[Word { word: "yes", meaning: "planned" }, Word { word: "no", meaning: "not planned" }];

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
            .or(
                "\"yes\"",
                Why::new(
                    "all services must be, or their saddles are dragged along",
                    Evidence::Published,
                ),
            ),
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
        Field::text("notice", "number and date of its decision")
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

/// Soils and what the trench of the old main was filled with.
pub(super) static FILL: Section = Section {
    key: "ground",
    shape: Shape::Table,
    meaning: "The ground around the old main: the fill of its trench, which borings beside the street do not show.",
    required: true,
    fields: &[
        Field::text("fill", "name of the [[ground.soil]] around the old main")
            .example("\"trench fill\""),
        Field::quantity(
            "trench_width",
            "width of the trench in which the old main was laid",
            unit::M,
            Range::above(0.0, 20.0),
        )
        .optional("walls of a narrow trench are not seen")
        .example("\"0.9 m\""),
        Field::choice("density", "how dense the fill is", FILLS).or(
            "\"dense\"",
            Why::new("traffic has compacted it; presses harder on the cone", Evidence::Judgement),
        ),
    ],
};

const FILLS: &[Word] = &[
    Word { word: "loose", meaning: "can be dug with a hand shovel" },
    Word { word: "dense", meaning: "compacted, or old" },
];

/// Head, string and work.
pub(super) static BURST: Section = Section {
    key: "burst",
    shape: Shape::Table,
    meaning: "The head and how it is pulled.",
    required: false,
    fields: &[
        Field::quantity("expander_diameter", "largest diameter of the expander", unit::MM, DIAMETER)
            .or_rule(
                "the socket with its protection, and 20 mm up to DN 300, 40 mm above",
                Why::new(
                    "the expander must reach the sockets (one manufacturer's manual); the room is an engineering default",
                    Evidence::Judgement,
                ),
            )
            .example("\"377 mm\""),
        Field::quantity(
            "cone_half_angle",
            "half angle of the cone",
            unit::DEG,
            Range::within(2.0, 45.0),
        )
        .or("\"15 deg\"", Why::new("10 to 20 deg", Evidence::FromMemory)),
        Field::quantity(
            "cone_friction",
            "friction of the cone on host and ground",
            unit::ONE,
            Range::within(0.05, 1.0),
        )
        .or("0.3", Why::new("steel on iron and soil", Evidence::FromMemory)),
        Field::integer(
            "cutters",
            "blades that cut at the same time, for ductile hosts",
            Range::within(1.0, 12.0),
        )
        .or("1", Why::new("one line of cut", Evidence::Judgement)),
        Field::choice("lubricated", "whether the string is lubricated behind the expander", YES_NO)
            .or("\"no\"", Why::new("usual above 380 mm or where the pull comes near its limit", Evidence::Published)),
        Field::quantity(
            "speed",
            "speed of the head while it moves",
            unit::M_PER_MIN,
            Range::above(0.0, 10.0),
        )
        .or("\"0.6 m/min\"", Why::new("example of a time model", Evidence::Judgement)),
        Field::quantity(
            "joint_time",
            "time to join and protect one pipe",
            unit::MIN,
            Range::above(0.0, 240.0),
        )
        .or("\"15 min\"", Why::new("5 to 20 min up to DN 300, more above", Evidence::FromMemory)),
        Field::quantity(
            "reset_time",
            "time to set the machine again for the next pipe",
            unit::MIN,
            Range::within(0.0, 240.0),
        )
        .or("\"2 min\"", Why::new("example of a time model", Evidence::Judgement)),
    ],
};

/// Runs between pits.
pub(super) static RUN: Section = Section {
    key: "run",
    shape: Shape::Array,
    meaning: "One pull between two pits, in the order of the work. Repeat the header for every run.",
    required: false,
    fields: &[
        Field::text("name", "name of the run").example("\"A\""),
        Field::quantity(
            "launch",
            "chainage of the launch pit, where the string goes in",
            unit::M,
            CHAINAGE,
        )
        .example("\"0 m\""),
        Field::quantity("machine", "chainage of the machine pit", unit::M, CHAINAGE)
            .example("\"118 m\""),
    ],
};

/// The pits.
pub(super) static PIT: Section = Section {
    key: "pit",
    shape: Shape::Table,
    meaning: "The pits. The machine pushes against the wall from which the old main comes.",
    required: false,
    fields: &[
        Field::quantity(
            "launch_length",
            "length of the launch pit along the main",
            unit::M,
            Range::above(0.0, 100.0),
        )
        .optional("the launch pit is not assessed")
        .example("\"8 m\""),
        Field::quantity(
            "launch_width",
            "width of the launch pit",
            unit::M,
            Range::above(0.0, 20.0),
        )
        .optional("the launch pit is not assessed")
        .example("\"1.5 m\""),
        Field::quantity(
            "machine_length",
            "length of the machine pit along the main",
            unit::M,
            Range::above(0.0, 100.0),
        )
        .optional("the machine pit is not assessed")
        .example("\"4 m\""),
        Field::quantity(
            "machine_width",
            "width of the machine pit",
            unit::M,
            Range::above(0.0, 20.0),
        )
        .optional("the machine pit is not assessed")
        .example("\"2 m\""),
        Field::quantity(
            "plate_width",
            "width of the bearing plate",
            unit::M,
            Range::above(0.0, 20.0),
        )
        .optional("the reaction wall is not assessed")
        .example("\"2 m\""),
        Field::quantity(
            "plate_top",
            "depth of the plate's upper edge below ground",
            unit::M,
            Range::within(0.0, 20.0),
        )
        .optional("the reaction wall is not assessed")
        .example("\"0.6 m\""),
        Field::quantity(
            "plate_bottom",
            "depth of the plate's lower edge below ground",
            unit::M,
            Range::above(0.0, 20.0),
        )
        .optional("the reaction wall is not assessed")
        .example("\"2.4 m\""),
    ],
};

/// The bursting machine.
pub(super) static MACHINE: Section = Section {
    key: "rig",
    shape: Shape::Table,
    meaning: "The bursting machine.",
    required: false,
    fields: &[
        Field::quantity(
            "pullback",
            "greatest pull of the machine",
            unit::KN,
            Range::above(0.0, 50_000.0),
        )
        .optional("the force on the machine is not assessed")
        .usually(
            Range::within(20.0, 10_000.0),
            "a bare number is in kN; write tonnes of force as kN, 80 t being about 785 kN",
        )
        .example("\"785 kN\""),
        Field::quantity(
            "rod_mass",
            "mass of the rods per length",
            unit::KG_PER_M,
            Range::above(0.0, 1_000.0),
        )
        .optional("friction of the rods in the old main is left out")
        .example("\"35 kg/m\""),
    ],
};

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
