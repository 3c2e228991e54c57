use quantity::unit;
use working::Evidence;

use super::definition::{Field, Section, Shape, Value, Why, Word};
use super::range::Range;

const THICKNESS_HINT: &str =
    "a bare number is in mm; write inches as \"0.2 in\", centimetres as \"0.5 cm\"";
const THICKNESS: Range = Range::within(0.0, 200.0);

/// The string of pipes.
pub(super) static STRING: Section = Section {
    key: "string",
    shape: Shape::Table,
    meaning: "The pipes and how they are pulled. Values of a standard can be replaced by those of \
              the maker's data sheet.",
    required: true,
    fields: &[
        PIPE_STANDARD,
        PIPE_DN,
        PIPE_SIZE,
        PIPE_CLASS,
        PIPE_LAYING_LENGTH,
        PIPE_OUTSIDE_DIAMETER,
        PIPE_WALL,
        PIPE_WALL_MIN,
        PIPE_LINING_THICKNESS,
        PIPE_COATING,
        PIPE_COATING_THICKNESS,
        PIPE_COATING_DENSITY,
        PIPE_SOCKET_DIAMETER,
        PIPE_PROTECTION,
        PIPE_SOCKET_MASS,
        PIPE_MASS_PER_LENGTH,
        PIPE_CONTENTS,
        PIPE_BALLAST_SHARE,
        PIPE_ASSEMBLY,
        PIPE_SUB_STRINGS,
        PIPE_SUPPORT,
        PIPE_SUPPORT_FRICTION,
        PIPE_RAMP_SLOPE,
        PIPE_EXTRA_LENGTH,
        PIPE_HEAD_LINK,
    ],
};

/// The string of pipes that is pulled behind a head.
pub(super) static BURST_STRING: Section = Section {
    key: "string",
    shape: Shape::Table,
    meaning: "The pipes and how they are pulled. Values of a standard can be replaced by those of \
              the maker's data sheet.",
    required: true,
    fields: &[
        PIPE_STANDARD,
        PIPE_DN,
        PIPE_SIZE,
        PIPE_CLASS,
        PIPE_LAYING_LENGTH,
        PIPE_OUTSIDE_DIAMETER,
        PIPE_WALL,
        PIPE_WALL_MIN,
        PIPE_LINING_THICKNESS,
        PIPE_COATING,
        PIPE_COATING_THICKNESS,
        PIPE_COATING_DENSITY,
        PIPE_SOCKET_DIAMETER,
        PIPE_PROTECTION,
        PIPE_SOCKET_MASS,
        PIPE_MASS_PER_LENGTH,
        BURST_ASSEMBLY,
        PIPE_SUB_STRINGS,
    ],
};

/// The joint.
pub(super) static JOINT: Section = Section {
    key: "string.joint",
    shape: Shape::Table,
    meaning: "The restrained joint, from its maker's certificate.",
    required: false,
    fields: &[
        JOINT_ALLOWABLE_ANGLE,
        JOINT_PERMITTED_PULL,
        JOINT_PRESSURE,
        JOINT_EXTERNAL_PRESSURE,
        JOINT_SOURCE,
    ],
};

/// The joint of a string that is pulled behind a head.
pub(super) static BURST_JOINT: Section = Section {
    key: "string.joint",
    shape: Shape::Table,
    meaning: "The restrained joint, from its maker's certificate.",
    required: false,
    fields: &[JOINT_ALLOWABLE_ANGLE, JOINT_PERMITTED_PULL, JOINT_PRESSURE, JOINT_SOURCE],
};

const PIPE_STANDARD: Field =
    Field::choice("standard", "where the pipe's dimensions come from", STANDARDS)
        .example("\"EN 545\"");

const PIPE_DN: Field = Field::integer("dn", "nominal size of EN 545", Range::within(20.0, 4_000.0))
    .when("standard = \"EN 545\"")
    .example("400");

const PIPE_SIZE: Field =
    Field::integer("size", "nominal size of AWWA C151 in inches", Range::within(1.0, 160.0))
        .when("standard = \"AWWA C151\"")
        .example("16");

const PIPE_CLASS: Field =
    Field::text("class", "class of the wall: K9, C40, or 350 psi; with own data a label")
        .when("standard = \"EN 545\" or \"AWWA C151\"")
        .example("\"K9\"");

const PIPE_LAYING_LENGTH: Field = Field::quantity(
    "laying_length",
    "length that one joined pipe adds to the string",
    unit::M,
    Range::within(1.0, 12.0),
)
.or_rule(
    "the usual length of the standard; required with own data",
    Why::new("usual length of the standard", Evidence::FromMemory),
)
.example("\"6 m\"");

const PIPE_OUTSIDE_DIAMETER: Field = Field::quantity(
    "outside_diameter",
    "outside diameter of the iron barrel, without coating",
    unit::MM,
    Range::within(50.0, 5_000.0),
)
.when("standard = \"own\"; else the standard's table holds")
.example("\"429 mm\"");

const PIPE_WALL: Field =
    Field::quantity("wall", "nominal wall of the iron", unit::MM, Range::above(0.0, 200.0))
        .when("standard = \"own\"; else the standard's table holds")
        .example("\"8.1 mm\"");

const PIPE_WALL_MIN: Field =
    Field::quantity("wall_min", "least wall of the iron", unit::MM, Range::above(0.0, 200.0))
        .or_rule(
            "the standard's tolerance; with own data wall less 1.3 mm and less 0.001 × \
                 diameter",
            Why::new("tolerance of EN 545 applied to own data", Evidence::Judgement),
        )
        .example("\"6.4 mm\"");

const PIPE_LINING_THICKNESS: Field =
    Field::quantity("lining_thickness", "thickness of the cement lining", unit::MM, THICKNESS)
        .or_rule(
            "nominal lining of the standard; with own data no lining",
            Why::new("no lining on the data sheet", Evidence::Judgement),
        )
        .usually_or_zero(Range::at_least(1.0), THICKNESS_HINT)
        .example("\"5 mm\"");

const PIPE_COATING: Field =
    Field::choice("coating", "coating on the barrel", COATINGS).example("\"fibre mortar\"");

const PIPE_COATING_THICKNESS: Field =
    Field::quantity("coating_thickness", "thickness of the coating", unit::MM, THICKNESS)
        .or_rule(
            "by kind: fibre mortar 5 mm, polyethylene 3 mm, polyurethane 0.7 mm",
            Why::new("usual thickness of the coating", Evidence::FromMemory),
        )
        .usually_or_zero(Range::at_least(0.3), THICKNESS_HINT)
        .example("\"5 mm\"");

const PIPE_COATING_DENSITY: Field = Field::quantity(
    "coating_density",
    "density of the coating",
    unit::KG_PER_M3,
    Range::above(0.0, 10_000.0),
)
.or_rule(
    "by kind: fibre mortar 2300, polyethylene 940, polyurethane 1200 kg/m3",
    Why::new("usual density of the coating", Evidence::FromMemory),
)
.example("\"2300 kg/m3\"");

const PIPE_SOCKET_DIAMETER: Field = Field::quantity(
    "socket_diameter",
    "outside diameter of the socket, without protection",
    unit::MM,
    Range::within(50.0, 6_000.0),
)
.or_rule(
    "published or fitted for the standard (AWWA C151: the fit for European restrained \
             sockets); with own data none, and nothing that needs it is assessed",
    Why::new("fit for restrained sockets", Evidence::FromMemory),
)
.example("\"518 mm\"");

const PIPE_PROTECTION: Field = Field::quantity(
    "protection",
    "what sleeve and cone add to the diameter of the socket",
    unit::MM,
    Range::within(0.0, 500.0),
)
.or("\"25 mm\"", Why::new("upper end of an allowance of 10 to 25 mm", Evidence::Judgement))
.usually_or_zero(Range::at_least(3.0), THICKNESS_HINT);

const PIPE_SOCKET_MASS: Field = Field::quantity(
    "socket_mass",
    "mass of the socket beyond the barrel",
    unit::KG,
    Range::within(0.0, 5_000.0),
)
.or_rule(
    "published push-on socket × 1.45 for the restrained one",
    Why::new("socket mass by diameter", Evidence::Judgement),
)
.example("\"43 kg\"");

const PIPE_MASS_PER_LENGTH: Field = Field::quantity(
    "mass_per_length",
    "mass of the finished pipe per laying length, sockets included; replaces what the \
             dimensions give",
    unit::KG_PER_M,
    Range::above(0.0, 10_000.0),
)
.optional("the mass is computed from the dimensions")
.example("\"115 kg/m\"");

const PIPE_CONTENTS: Field =
    Field::choice("contents", "what is inside the pipe during the pull", CONTENTS)
        .or("\"empty\"", Why::new("nothing was provided to fill it", Evidence::Judgement));

const PIPE_BALLAST_SHARE: Field = Field::quantity(
    "ballast_share",
    "share of the inner volume that holds water",
    unit::ONE,
    Range::within(0.0, 1.0),
)
.when("contents = \"part\"")
.example("\"50 %\"");

const PIPE_ASSEMBLY: Field =
    Field::choice("assembly", "how the string is put together", ASSEMBLIES)
        .or("\"string\"", Why::new("joined in full before the pull", Evidence::Judgement));

const PIPE_SUB_STRINGS: Field = Field::other(
    "sub_strings",
    "pipes in each sub-string, in the order of the pull",
    Value::Integers(Range::within(1.0, 5_000.0)),
)
.when("assembly = \"sub-strings\"")
.example("[25, 25]");

const PIPE_SUPPORT: Field =
    Field::choice("support", "what carries the string outside the bore", SUPPORTS)
        .or("\"rollers\"", Why::new("usual for coated pipe", Evidence::CommonPractice));

const PIPE_SUPPORT_FRICTION: Field = Field::quantity(
    "support_friction",
    "friction of the string outside the bore",
    unit::ONE,
    Range::within(0.0, 2.0),
)
.or_rule(
    "0.1 on rollers, 0.5 on the ground",
    Why::new(
        "ASTM F1962 as quoted in Najafi, Trenchless Technology Piping, ch. 5; rollers \
                 also in a book chapter on \
                 directional drilling",
        Evidence::Published,
    ),
)
.example("0.1");

const PIPE_RAMP_SLOPE: Field = Field::quantity(
    "ramp_slope",
    "slope of the string outside the bore; positive climbs towards the bore",
    unit::DEG,
    Range::within(-45.0, 45.0),
)
.or("\"0 deg\"", Why::new("level ground behind the exit point", Evidence::Judgement));

const PIPE_EXTRA_LENGTH: Field = Field::quantity(
    "extra_length",
    "string that still sticks out of the bore when the pull is finished",
    unit::M,
    Range::within(0.0, 1_000.0),
)
.or_rule("one laying length", Why::new("room to cut and to connect", Evidence::Judgement))
.usually(Range::at_most(100.0), "what sticks out of the bore, not the whole string; in m")
.example("\"6 m\"");

const PIPE_HEAD_LINK: Field = Field::quantity(
    "head_link",
    "distance from the front of the first barrel to the reamer, along pulling head, swivel \
             and shackles; the front of the string may ride off the axis by it",
    unit::M,
    Range::within(0.0, 20.0),
)
.or("\"3 m\"", Why::new("pulling head, swivel and shackles", Evidence::Judgement))
.usually(Range::at_most(10.0), "a bare number is in m; write feet as \"10 ft\"");

const JOINT_ALLOWABLE_ANGLE: Field = Field::quantity(
    "allowable_angle",
    "angle that the joint may take while it is pulled",
    unit::DEG,
    Range::above(0.0, 15.0),
)
.or_rule(
    "published for EN 545 sizes; else the joint's angle is not assessed",
    Why::new("published restrained joints", Evidence::Published),
)
.usually(
    Range::at_most(6.0),
    "take the angle that holds under pull, in degrees; unrestrained joints turn further",
)
.example("\"3 deg\"");

const JOINT_PERMITTED_PULL: Field = Field::quantity(
    "permitted_pull",
    "pull that the joint may carry",
    unit::KN,
    Range::above(0.0, 50_000.0),
)
.or_rule(
    "published for EN 545 sizes; else the joint's force is not assessed",
    Why::new("published restrained joints", Evidence::Published),
)
.example("\"510 kN\"");

const JOINT_PRESSURE: Field = Field::quantity(
    "pressure",
    "allowable operating pressure of the joint (PFA)",
    unit::BAR,
    Range::above(0.0, 400.0),
)
.or_rule(
    "remembered for EN 545 sizes; else the pressure of the joint is not assessed",
    Why::new(
        "restrained joints of EN 545 sizes; another set than pull and angle",
        Evidence::FromMemory,
    ),
)
.example("\"30 bar\"");

const JOINT_EXTERNAL_PRESSURE: Field = Field::quantity(
    "external_pressure",
    "pressure from outside for which the joint's seal is proved",
    unit::BAR,
    Range::above(0.0, 100.0),
)
.or(
    "\"2 bar\"",
    Why::new("type test of EN 545 for positive external pressure", Evidence::FromMemory),
)
.usually(Range::at_most(10.0), "a bare number is in bar; write kilopascals as \"200 kPa\"");

const JOINT_SOURCE: Field =
    Field::text("source", "document that the values of the joint come from")
        .optional("the values of the joint count as given, without a document")
        .example("\"certificate of the maker, 2024\"");

const BURST_ASSEMBLY: Field =
    Field::choice("assembly", "how the string is put together", ASSEMBLIES).or(
        "\"pipe by pipe\"",
        Why::new("a launch pit in a street has no room for a string", Evidence::CommonPractice),
    );

const STANDARDS: &[Word] = &[
    Word { word: "EN 545", meaning: "EN 545 / ISO 2531, give dn and class" },
    Word { word: "AWWA C151", meaning: "ANSI/AWWA C151/A21.51, give size and class" },
    Word { word: "own", meaning: "own data, give outside_diameter, wall and laying_length" },
];

const COATINGS: &[Word] = &[
    Word { word: "none", meaning: "nothing that adds to the diameter" },
    Word { word: "fibre mortar", meaning: "fibre-reinforced cement mortar over zinc, EN 15542" },
    Word { word: "polyethylene", meaning: "extruded polyethylene, EN 14628" },
    Word { word: "polyurethane", meaning: "polyurethane, EN 15189" },
    Word { word: "zinc and finishing layer", meaning: "not made for pulling in" },
];

const CONTENTS: &[Word] = &[
    Word { word: "empty", meaning: "air" },
    Word { word: "water", meaning: "full of water" },
    Word { word: "part", meaning: "ballast line or compartments, give ballast_share" },
];

const ASSEMBLIES: &[Word] = &[
    Word { word: "string", meaning: "all pipes are joined before the pull" },
    Word { word: "sub-strings", meaning: "strings are joined one after another, give sub_strings" },
    Word { word: "pipe by pipe", meaning: "every pipe is joined at the pit" },
];

const SUPPORTS: &[Word] = &[
    Word { word: "rollers", meaning: "roller stands or a floating ditch" },
    Word { word: "ground", meaning: "lies on the ground" },
];
