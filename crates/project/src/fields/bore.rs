use quantity::unit;
use working::Evidence;

use super::definition::{Field, Section, Shape, Value, Why, Word};
use super::range::Range;

/// The least bore that there is, 50 mm, refuses metres that were written without a unit.
const DIAMETER: Range = Range::within(50.0, 5_000.0);
const PRESSURE: Range = Range::above(0.0, 400.0);
const DEGREES: Range = Range::within(0.0, 1_000.0);

/// The bore.
pub(super) static BORE: Section = Section {
    key: "bore",
    shape: Shape::Table,
    meaning: "Diameters of the bore.",
    required: true,
    fields: &[
        Field::quantity("pilot_diameter", "diameter of the pilot bore", unit::MM, DIAMETER)
            .optional("pressures and volumes of the pilot bore are not assessed")
            .example("\"250 mm\""),
        Field::other(
            "ream",
            "diameters of the ream passes, rising",
            Value::Quantities(unit::MM, DIAMETER),
        )
        .when("final_diameter is not given")
        .example("[450, 650, 850]"),
        Field::quantity(
            "final_diameter",
            "diameter of the bore in which the string is pulled",
            unit::MM,
            DIAMETER,
        )
        .or_rule(
            "the last ream pass",
            Why::new("bore neither washed out nor closed in", Evidence::Judgement),
        )
        .example("\"1000 mm\""),
    ],
};

/// The drill rods.
pub(super) static RODS: Section = Section {
    key: "bore.rods",
    shape: Shape::Table,
    meaning: "The drill rods.",
    required: false,
    fields: &[
        Field::quantity("length", "length of one rod", unit::M, Range::above(0.0, 50.0))
            .optional("straight leads are not compared with whole rods")
            .example("\"4.5 m\""),
        Field::quantity(
            "diameter",
            "outside diameter of the rod body",
            unit::MM,
            Range::above(0.0, 500.0),
        )
        .optional("no radius of the rods can be assumed")
        .usually(Range::within(30.0, 250.0), "a bare number is in mm; write inches as \"3.5 in\"")
        .example("\"89 mm\""),
        Field::quantity(
            "inside_diameter",
            "inside diameter of the rods",
            unit::MM,
            Range::above(0.0, 450.0),
        )
        .optional("the pressure of the pump is not assessed")
        .example("\"70 mm\""),
        Field::quantity(
            "minimum_radius",
            "smallest radius to which the rods may be bent, from their maker",
            unit::M,
            Range::above(0.0, 10_000.0),
        )
        .or_rule(
            "1200 × diameter where the diameter is given; else the rods' radius is not assessed",
            Why::new(
                "100 ft per inch of rod diameter, ASTM F1962 as quoted in Najafi, Trenchless \
                 Technology Piping, \
                 eq. 5.1, p. 192",
                Evidence::Published,
            ),
        )
        .usually(Range::at_least(15.0), "a bare number is in m; write feet as \"350 ft\"")
        .example("\"107 m\""),
        Field::quantity(
            "permitted_pull",
            "pull that the rods may carry",
            unit::KN,
            Range::above(0.0, 50_000.0),
        )
        .optional("the pull in the rods is not assessed")
        .example("\"450 kN\""),
        Field::quantity(
            "mass_per_length",
            "mass of the rods per length",
            unit::KG_PER_M,
            Range::above(0.0, 1_000.0),
        )
        .optional("friction of the rods ahead of the reamer is not added")
        .example("\"22 kg/m\""),
    ],
};

/// The drilling fluid.
pub(super) static FLUID: Section = Section {
    key: "fluid",
    shape: Shape::Table,
    meaning: "The drilling fluid in the bore while the string is pulled.",
    required: false,
    fields: &[
        Field::quantity(
            "density",
            "density of the fluid with the cuttings in it",
            unit::KG_PER_M3,
            Range::within(900.0, 2_500.0),
        )
        .or(
            "\"1200 kg/m3\"",
            Why::new(
                "within the published field range of 1080 to 1440; measure the returns, for more \
                 cuttings make it \
                 heavier (ASTM F1962 takes 1500, deliberately heavy)",
                Evidence::Judgement,
            ),
        )
        .usually(
            Range::within(1_000.0, 1_600.0),
            "clean water has 1000 kg/m3; write pounds per gallon as \"10 ppg\"",
        ),
        Field::quantity(
            "excess_pressure",
            "pressure above the static head of the fluid while the string is pulled",
            unit::KPA,
            Range::within(0.0, 2_000.0),
        )
        .or(
            "\"70 kPa\"",
            Why::new("hydrokinetic pressure of ASTM F1962, 10 psi", Evidence::FromMemory),
        )
        .usually(Range::at_least(3.0), "a bare number is in kPa: bar meant? Write \"0.7 bar\""),
        Field::quantity(
            "gel_strength",
            "gel strength of the fluid after the longest stop",
            unit::PA,
            Range::within(0.0, 1_000.0),
        )
        .optional("the part of the gel in the restart is not shown, and fluid.restart is not assessed")
        .example("\"8 Pa\""),
        Field::quantity(
            "fresh_density",
            "density of the fluid as pumped, without cuttings",
            unit::KG_PER_M3,
            Range::within(900.0, 2_000.0),
        )
        .or(
            "\"1040 kg/m3\"",
            Why::new("fresh bentonite fluid has 1020 to 1060", Evidence::FromMemory),
        ),
        Field::quantity(
            "plastic_viscosity",
            "plastic viscosity, where no dial readings are given",
            unit::MPA_S,
            Range::above(0.0, 1_000.0),
        )
        .optional("the dial readings are used")
        .example("\"12 mPa·s\""),
        Field::quantity(
            "yield_point",
            "yield point of the Bingham model, where no dial readings are given",
            unit::PA,
            Range::within(0.0, 500.0),
        )
        .optional("the dial readings are used")
        .example("\"9 Pa\""),
        Field::choice("model", "flow law by which the pressure is computed", MODELS).or(
            "\"largest\"",
            Why::new(
                "models of one fluid differ by a factor of two at the shear rates of a bore; the largest is safe for \
                 the ground",
                Evidence::Judgement,
            ),
        ),
        Field::quantity(
            "eccentricity",
            "eccentricity of rods and string in the bore, 1 where they lie on its floor",
            unit::ONE,
            Range::within(0.0, 1.0),
        )
        .or(
            "0",
            Why::new("concentric: overstates the loss, safe for the ground", Evidence::Derived),
        ),
        Field::quantity(
            "bentonite_dose",
            "bentonite per volume of fluid",
            unit::KG_PER_M3,
            Range::within(0.0, 200.0),
        )
        .or_rule(
            "by the soil of the bore: 25 in fine soil, 40 in sand, 50 in gravel and rock, kg/m3",
            Why::new(
                "20 to 35 in clay and silt, 30 to 60 in sand and gravel; makers differ: 18 to 67 are published",
                Evidence::FromMemory,
            ),
        )
        .example("\"30 kg/m3\""),
        Field::quantity(
            "tanker_volume",
            "what one tanker takes of the spoil",
            unit::M3,
            Range::above(0.0, 100.0),
        )
        .or("\"10 m3\"", Why::new("a lorry with a vacuum tank", Evidence::Judgement)),
    ],
};

const MODELS: &[Word] = &[
    Word { word: "largest", meaning: "largest loss of the models below" },
    Word { word: "bingham", meaning: "Bingham, solved exactly" },
    Word { word: "power-law", meaning: "power law of the readings at 100 and 3 revolutions" },
    Word { word: "herschel-bulkley", meaning: "Herschel-Bulkley" },
];

/// Dial readings of the viscometer.
pub(super) static READINGS: Section = Section {
    key: "fluid.readings",
    shape: Shape::Table,
    meaning: "Dial readings of a six-speed viscometer with the standard bob, in degrees; they \
              rise with the speed. The pressures along the bore follow from them.",
    required: false,
    fields: &[
        Field::quantity("r600", "reading at 600 revolutions per minute", unit::ONE, DEGREES)
            .example("42"),
        Field::quantity("r300", "reading at 300 revolutions per minute", unit::ONE, DEGREES)
            .example("30"),
        Field::quantity("r200", "reading at 200 revolutions per minute", unit::ONE, DEGREES)
            .optional("it is only compared with its neighbours")
            .example("25"),
        Field::quantity("r100", "reading at 100 revolutions per minute", unit::ONE, DEGREES)
            .optional("there is no power law of the annulus")
            .example("19"),
        Field::quantity("r6", "reading at 6 revolutions per minute", unit::ONE, DEGREES)
            .optional("there is no Herschel-Bulkley law")
            .example("9"),
        Field::quantity("r3", "reading at 3 revolutions per minute", unit::ONE, DEGREES)
            .optional("there is no power law of the annulus and no Herschel-Bulkley law")
            .example("8"),
    ],
};

/// The drilling rig.
pub(super) static RIG: Section = Section {
    key: "rig",
    shape: Shape::Table,
    meaning: "The drilling rig.",
    required: false,
    fields: &[
        Field::quantity(
            "pullback",
            "greatest pull of the rig",
            unit::KN,
            Range::above(0.0, 50_000.0),
        )
        .optional("the force on the rig is not assessed")
        .usually(
            Range::within(20.0, 10_000.0),
            "a bare number is in kN; write tonnes of force as kN, 45 t being about 450 kN",
        )
        .example("\"450 kN\""),
        Field::quantity(
            "reamer_force",
            "force of reamer and swivel ahead of the string, as read on the last swab pass",
            unit::KN,
            Range::within(0.0, 5_000.0),
        )
        .or("\"20 kN\"", Why::new("to be measured on the last swab pass", Evidence::Judgement)),
    ],
};

/// Pressures of the finished main.
pub(super) static SERVICE: Section = Section {
    key: "service",
    shape: Shape::Table,
    meaning: "Pressures of the finished main.",
    required: false,
    fields: &[
        Field::quantity("operating_pressure", "operating pressure", unit::BAR, PRESSURE)
            .optional("the operating pressure is not assessed")
            .example("\"8 bar\""),
        Field::quantity(
            "maximum_design_pressure",
            "maximum design pressure, with the allowance for surge",
            unit::BAR,
            PRESSURE,
        )
        .optional("the maximum design pressure is not assessed")
        .example("\"12 bar\""),
        Field::quantity("test_pressure", "test pressure on site", unit::BAR, PRESSURE)
            .optional("the test pressure is not assessed")
            .example("\"17 bar\""),
        Field::quantity(
            "reference_level",
            "level at which these pressures hold",
            unit::M,
            Range::within(-12_000.0, 9_000.0),
        )
        .or_rule(
            "the higher of entry and exit level",
            Why::new("gives the highest pressure at the low point", Evidence::Judgement),
        )
        .example("\"4 m\""),
    ],
};
