use ground::{
    Trough, along_pull, annulus_loss_volume, far_displacement, near_displacement, trench_wedge,
};
use quantity::{Length, unit};
use working::{Evidence, Source};

use super::{ASIDE, AXIS_DEPTH, OFFSET, VOLUME, VOLUME_OR_NONE, volume};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const RING: Source = Source::new("ring that keeps its area, exact", Evidence::Derived);
const SERIES: Source = Source::new("first term of the exact form", Evidence::Derived);
const POINTS: Source =
    Source::new("integral of point sources, after Sagaseta 1987", Evidence::Derived);
const TRENCH: Source = Source::new("volume that stays the same", Evidence::Derived);
const AREA: Source = Source::new("area of a ring, exact", Evidence::Derived);
const BELL: Source = Source::new("bell curve of tunnelling practice", Evidence::FromMemory);
static ABOVE_AXIS: Source = Source::new("above the axis", Evidence::Judgement);

pub(super) static NEAR_DISPLACEMENT: Worksheet = Worksheet {
    id: "near-displacement",
    title: "movement of deep ground away from a volume gained, without surface",
    inputs: &[
        volume("volume per length gained; negative: lost", VOLUME),
        Input::quantity(
            "distance",
            "R",
            "distance of the place from the axis before",
            unit::M,
            Range::Within(1e-4, 1e6),
        ),
    ],
    outputs: &[
        Output::new("displacement", "movement away from the axis", unit::MM),
        Output::new("far", "the same by the form for far away", unit::MM),
    ],
    source: RING,
    example: &[("volume_per_length", "0.0354 m3/m"), ("distance", "1.1 m")],
    run: near,
};

pub(super) static DISPLACEMENT_ALONG_PULL: Worksheet = Worksheet {
    id: "displacement-along-pull",
    title: "heave of the surface ahead of and behind a head that displaces ground",
    inputs: &[
        volume("volume per length gained behind the head; negative: lost", VOLUME),
        AXIS_DEPTH,
        OFFSET,
        Input::quantity(
            "behind_head",
            "y",
            "distance of the place behind the head; negative: ahead",
            unit::M,
            ASIDE,
        ),
    ],
    outputs: &[
        Output::new("heave", "movement of the surface upwards", unit::MM),
        Output::new("share", "share of the final heave", unit::PERCENT),
    ],
    source: POINTS,
    example: &[
        ("volume_per_length", "0.0354 m3/m"),
        ("axis_depth", "1.5 m"),
        ("offset", "0.75 m"),
        ("behind_head", "1 m"),
    ],
    run: along,
};

pub(super) static TRENCH_HEAVE: Worksheet = Worksheet {
    id: "trench-heave",
    title: "heave of a trench whose walls let ground leave upwards only",
    inputs: &[
        volume("volume per length displaced", VOLUME_OR_NONE),
        Input::quantity(
            "heave_ratio",
            "eta",
            "share that reaches the surface: 1 clay, 0.5-0.8 sand, 0.2-0.5 loose backfill",
            unit::ONE,
            Range::Within(0.0, 1.0),
        ),
        Input::quantity(
            "trench_width",
            "W",
            "width of the trench",
            unit::M,
            Range::Within(0.05, 100.0),
        ),
    ],
    outputs: &[Output::new("heave", "heave over the width of the trench", unit::MM)],
    source: TRENCH,
    example: &[
        ("volume_per_length", "0.0354 m3/m"),
        ("heave_ratio", "1"),
        ("trench_width", "0.8 m"),
    ],
    run: trench,
};

pub(super) static ANNULUS_CLOSURE: Worksheet = Worksheet {
    id: "annulus-closure",
    title: "ground lost when the annulus around a barrel closes",
    inputs: &[
        Input::quantity("bore_diameter", "D_b", "bore as reamed", unit::MM, Range::SIZE),
        Input::quantity(
            "barrel_diameter",
            "d",
            "outside diameter of the barrel",
            unit::MM,
            Range::SIZE_OR_NONE,
        ),
        Input::quantity(
            "closing_share",
            "k",
            "share of the annulus that closes: 0.1-0.5 where slurry sets, up to 1",
            unit::ONE,
            Range::Within(0.0, 1.0),
        ),
    ],
    outputs: &[Output::new("volume_per_length", "volume per length lost", unit::M3_PER_M)],
    source: AREA,
    example: &[
        ("bore_diameter", "615 mm"),
        ("barrel_diameter", "326 mm"),
        ("closing_share", "0.2"),
    ],
    run: closure,
};

pub(super) static SETTLEMENT_TROUGH: Worksheet = Worksheet {
    id: "settlement-trough",
    title: "settlement of the surface across a bore, bell curve",
    inputs: &[
        volume("volume per length lost", VOLUME_OR_NONE),
        AXIS_DEPTH,
        Input::quantity(
            "width_factor",
            "K",
            "trough width over depth: sand 0.25-0.45, clay 0.4-0.6",
            unit::ONE,
            Range::Within(0.1, 1.0),
        ),
        Input::quantity("offset", "x", "offset from the axis to either side", unit::M, ASIDE)
            .or("0 m", &ABOVE_AXIS),
    ],
    outputs: &[
        Output::new("settlement", "settlement at the offset", unit::MM),
        Output::new("greatest", "settlement above the axis", unit::MM),
        Output::new("greatest_slope", "greatest slope of the surface", unit::PERCENT),
        Output::new("width", "offset of the greatest slope", unit::M),
        Output::new("half_width", "half of the trough's width", unit::M),
    ],
    source: BELL,
    example: &[
        ("volume_per_length", "0.0427 m3/m"),
        ("axis_depth", "6 m"),
        ("width_factor", "0.3"),
    ],
    run: trough,
};

fn near(v: &Values) -> Result<Sheet, Failure> {
    let (volume, r) = (v.si("volume_per_length"), Length::from_si(v.si("distance")));
    let refused = |e| Failure::at("distance", e);
    let exact = near_displacement(volume, r).map_err(refused)?.si();
    let far = far_displacement(volume, r).map_err(refused)?.si();
    let mut w = v.open();
    let formula = "V/pi/(sqrt(R^2 + V/pi) + R)";
    w.result("u", "movement away from the axis", formula, exact, unit::MM, RING);
    w.result("u_f", "the same far away", "V/(2*pi*R)", far, unit::MM, SERIES);
    Ok(Sheet::new(&[("displacement", exact), ("far", far)], w))
}

fn along(v: &Values) -> Result<Sheet, Failure> {
    let behind = v.si("behind_head");
    let heave = along_pull(
        v.si("volume_per_length"),
        Length::from_si(v.si("axis_depth")),
        Length::from_si(v.si("offset")),
        Length::from_si(behind),
    )
    .map_err(|e| Failure::at("axis_depth", e))?
    .si();
    let mut w = v.open();
    w.derive("R", "distance from the head", "sqrt(x^2 + h^2 + y^2)", unit::M, POINTS);
    // Ahead of the head the first form is a small difference of large numbers.
    let formula = if behind >= 0.0 { "(1 + y/R)/2" } else { "(x^2 + h^2)/(2*R*(R - y))" };
    let share = w.derive("k", "share of the final heave", formula, unit::PERCENT, POINTS);
    w.result("s", "heave", "V/pi*h/(x^2 + h^2)*k", heave, unit::MM, POINTS);
    Ok(Sheet::new(&[("heave", heave), ("share", share)], w))
}

fn trench(v: &Values) -> Result<Sheet, Failure> {
    let width = Length::from_si(v.si("trench_width"));
    let heave = trench_wedge(v.si("volume_per_length"), v.si("heave_ratio"), width)
        .map_err(|e| Failure::at("trench_width", e))?
        .si();
    let mut w = v.open();
    w.result("s", "heave", "eta*V/W", heave, unit::MM, TRENCH);
    Ok(Sheet::new(&[("heave", heave)], w))
}

fn closure(v: &Values) -> Result<Sheet, Failure> {
    let bore = Length::from_si(v.si("bore_diameter"));
    let barrel = Length::from_si(v.si("barrel_diameter"));
    let lost = annulus_loss_volume(bore, barrel, v.si("closing_share"))
        .map_err(|e| Failure::at("barrel_diameter", e))?;
    let mut w = v.open();
    let formula = "k*pi/4*(D_b - d)*(D_b + d)";
    w.result("V", "volume per length lost", formula, lost, unit::M3_PER_M, AREA);
    Ok(Sheet::new(&[("volume_per_length", lost)], w))
}

fn trough(v: &Values) -> Result<Sheet, Failure> {
    let depth = Length::from_si(v.si("axis_depth"));
    let trough = Trough::new(v.si("volume_per_length"), depth, v.si("width_factor"))
        .map_err(|e| Failure::at("axis_depth", e))?;
    let settlement = trough
        .settlement(Length::from_si(v.si("offset")))
        .map_err(|e| Failure::at("offset", e))?
        .si();
    let (greatest, slope) = (trough.greatest().si(), trough.greatest_slope());
    let half_width = trough.half_width().si();
    let mut w = v.open();
    w.result("i", "offset of the greatest slope", "K*h", trough.width.si(), unit::M, BELL);
    let formula = "V/(i*sqrt(2*pi))";
    w.result("S", "settlement above the axis", formula, greatest, unit::MM, BELL);
    w.result("s", "settlement", "S*exp(-x^2/(2*i^2))", settlement, unit::MM, BELL);
    w.result("j", "greatest slope", "S/i*exp(-0.5)", slope, unit::PERCENT, BELL);
    w.result("l", "half of the trough", "2.5*i", half_width, unit::M, BELL);
    Ok(Sheet::new(
        &[
            ("settlement", settlement),
            ("greatest", greatest),
            ("greatest_slope", slope),
            ("width", trough.width.si()),
            ("half_width", half_width),
        ],
        w,
    ))
}
