//! What the trade has done and says about it: runs, rigs, expansions, rates, vibration.

use quantity::unit;
use working::{Evidence, Source};

use super::Figure;

const fn read(text: &'static str) -> Source {
    Source::new(text, Evidence::Published)
}

const fn remembered(text: &'static str) -> Source {
    Source::new(text, Evidence::FromMemory)
}

/// Lengths between pits.
pub const RUN_LENGTHS: &[Figure] = &[
    Figure::range(
        "usual between pits",
        (300.0, 500.0),
        unit::FT,
        read("Najafi, Trenchless Technology Piping, p. 240; IPBA article 6, October 2011"),
    ),
    Figure::range(
        "usual between pits",
        (100.0, 150.0),
        unit::M,
        read("German water encyclopaedia, entry on bursting"),
    ),
    Figure::value(
        "usual at one utility, DN 150",
        100.0,
        unit::M,
        read("one contractor's page on water mains"),
    ),
    Figure::range(
        "water mains of 6 to 8 in by a utility's own crews",
        (400.0, 780.0),
        unit::FT,
        read("trade magazine, September 2018, on a utility with a static machine of its own"),
    ),
    Figure::at_least(
        "reported in one pull, plastic pipe",
        300.0,
        unit::M,
        read("trade forum on tips for bursting"),
    ),
    Figure::value(
        "longest run of ductile iron found, 28 pipes of 6 m, DN 200",
        168.0,
        unit::M,
        read("European ductile iron association, page on bursting"),
    ),
    Figure::value(
        "ductile iron DN 400 with logged force",
        200.0,
        unit::M,
        read("trade news, October 2012"),
    ),
];

/// Pull of rigs by what they were used for. A rating, no measured force.
pub const RIG_PULLS: &[Figure] = &[
    Figure::value(
        "DN 100 grey iron with steel repair clamps to 160 mm plastic pipe, 194 mm expander",
        40.0,
        unit::TF,
        read("one equipment maker's page on a job"),
    ),
    Figure::value(
        "hosts of 2 to 8 in; not for 12 in",
        100.0,
        unit::KIP,
        read("trade forum on tips for bursting"),
    ),
    Figure::at_least(
        "municipal sewers and water mains",
        140.0,
        unit::KIP,
        read("trade article on stretch of plastic pipe"),
    ),
    Figure::value(
        "DN 200 asbestos cement to DN 200 ductile iron, 168 m",
        785.0,
        unit::KN,
        read("European ductile iron association, page on bursting"),
    ),
    Figure::value(
        "6 and 8 in grey iron water mains",
        176.0,
        unit::KIP,
        read("trade article on a trial with a rented machine"),
    ),
    Figure::value(
        "6 to 10 in clay to 8 to 12 in jointed plastic pipe, more than 80 jobs",
        200.0,
        unit::KIP,
        read("trade article on bursting with jointed plastic pipe"),
    ),
    Figure::value(
        "hosts of 125 to 500 mm, up to 120 m",
        1000.0,
        unit::KN,
        read("one equipment maker's page on a job"),
    ),
    Figure::range(
        "hosts of 600 to 1000 mm",
        (250.0, 600.0),
        unit::TF,
        remembered("usual classes of rigs"),
    ),
];

/// Rule of thumb for the pull on plastic pipe: a limit of the pipe, not a size of rig, and not for ductile iron.
pub const PLASTIC_PULL_LIMITS: &[Figure] = &[
    Figure::value(
        "plastic pipe below 16 in",
        20.0,
        unit::KIP,
        read("Najafi, Trenchless Technology Piping, p. 351"),
    ),
    Figure::value(
        "plastic pipe from 16 in up",
        40.0,
        unit::KIP,
        read("Najafi, Trenchless Technology Piping, p. 351"),
    ),
];

/// How much holes have been widened.
pub const EXPANSIONS: &[Figure] = &[
    Figure::range(
        "growth of the hole over the host's bore, called typical; far below what small socketed pipe needs",
        (20.0, 25.0),
        unit::PERCENT,
        read("IPBA article, July 2011, on geotechnical conditions"),
    ),
    Figure::value(
        "expander over new pipe on the diameter, plastic pipe",
        25.0,
        unit::MM,
        read("plastic pipe institute, page on allowable tensile load"),
    ),
    Figure::value(
        "expander over new pipe, 194 mm on 160 mm",
        1.21,
        unit::ONE,
        read("one equipment maker's page on a job"),
    ),
    Figure::value(
        "sizes up, most that was done",
        3.0,
        unit::ONE,
        read("Najafi, Trenchless Technology Piping, p. 241"),
    ),
    Figure::value(
        "sizes up, European practice",
        2.0,
        unit::ONE,
        read("one contractor's page on bursting"),
    ),
    Figure::range(
        "expander over barrel, socketed ductile iron DN 80 to 150",
        (1.5, 1.8),
        unit::ONE,
        remembered("remembered socket diameters with usual clearance"),
    ),
    Figure::range(
        "expander over barrel, socketed ductile iron DN 200 to 400",
        (1.3, 1.4),
        unit::ONE,
        remembered("remembered socket diameters with usual clearance"),
    ),
    Figure::value(
        "expander over barrel, socketed ductile iron DN 600",
        1.2,
        unit::ONE,
        remembered("remembered socket diameters with usual clearance"),
    ),
];

/// How fast it goes.
pub const RATES: &[Figure] = &[
    Figure::range(
        "in one day, static bursting with plastic pressure pipe",
        (150.0, 300.0),
        unit::M,
        read("pipeline conference, abstract of 2016"),
    ),
    Figure::range(
        "in a day of 6 to 8 h with services, chlorinated plastic strings",
        (300.0, 600.0),
        unit::FT,
        read("one contractor's page on pre-chlorinated bursting"),
    ),
    Figure::range(
        "pneumatic heads with plastic pipe while pulling",
        (2.9, 3.2),
        unit::M_PER_MIN,
        read("customer magazine, times of two runs"),
    ),
    Figure::range(
        "joint of ductile iron up to DN 300; more above",
        (5.0, 20.0),
        unit::MIN,
        remembered("usual times of assembly"),
    ),
    Figure::range(
        "stop for a joint with its protection",
        (10.0, 25.0),
        unit::MIN,
        remembered("usual times of assembly"),
    ),
];

const DIN_4150: Source = remembered("DIN 4150-3, short-term vibration of buried pipes");
const REPORT: Source = remembered("technical report of 2001 on bursting");

/// Peak particle velocities that structures bear. Static pulling of ductile iron has no hammer: record them in rock only.
/// No attenuation law with constants for bursting was found.
pub const VIBRATION_LIMITS: &[Figure] = &[
    Figure::value("buildings", 0.050, unit::M_PER_S, REPORT),
    Figure::value("buried pipes", 0.125, unit::M_PER_S, REPORT),
    Figure::value("welded steel pipe", 0.100, unit::M_PER_S, DIN_4150),
    Figure::value("pipe of clay, concrete or metal", 0.080, unit::M_PER_S, DIN_4150),
    Figure::value("masonry and plastic pipe", 0.050, unit::M_PER_S, DIN_4150),
];
