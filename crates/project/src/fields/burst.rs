//! Sections of a file on pipe bursting: the street, the fill, the head, the pits.

use quantity::unit;
use working::Evidence;

use super::definition::{Column, Field, Section, Shape, Value, Why, Word};
use super::range::Range;

const LEVEL: Range = Range::within(-12_000.0, 9_000.0);
pub(super) const CHAINAGE: Range = Range::within(-20_000.0, 20_000.0);
pub(super) const DIAMETER: Range = Range::within(50.0, 5_000.0);
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

pub(super) const POINTS: &[Column] = &[
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

/// Yes or no.
pub(super) const YES_NO: &[Word] =
    &[Word { word: "yes", meaning: "planned" }, Word { word: "no", meaning: "not planned" }];

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
