use line::slide_share;
use quantity::{Angle, Length, unit};
use working::{Evidence, Source};

use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const ARC: Source = Source::new("length of an arc, exact", Evidence::Derived);

pub(super) static SLIDE_SHARE: Worksheet = Worksheet {
    id: "slide-share",
    title: "share of a rod to push without rotation for a turn",
    inputs: &[
        Input::quantity(
            "dogleg",
            "b",
            "angle that the rod has to turn",
            unit::DEG,
            Range::Within(0.0, std::f64::consts::FRAC_PI_2),
        ),
        Input::quantity(
            "tool_radius",
            "R",
            "radius that the tool steers when pushed without rotation",
            unit::M,
            Range::Positive,
        ),
        Input::quantity("rod_length", "a", "length of the rod", unit::M, Range::Positive),
    ],
    outputs: &[
        Output::new("share", "share of the rod to push", unit::PERCENT),
        Output::new("length", "length to push", unit::M),
    ],
    source: ARC,
    example: &[("dogleg", "1.719 deg"), ("tool_radius", "100 m"), ("rod_length", "6 m")],
    run: slide,
};

fn slide(v: &Values) -> Result<Sheet, Failure> {
    let share = slide_share(
        Angle::from_si(v.si("dogleg")),
        Length::from_si(v.si("tool_radius")),
        Length::from_si(v.si("rod_length")),
    )
    .map_err(|e| Failure::at("dogleg", e))?;
    let mut w = v.open();
    w.result("q", "share to push", "b*R/a", share, unit::PERCENT, ARC);
    let length = w.derive("s", "length to push", "q*a", unit::M, ARC);
    Ok(Sheet::new(&[("share", share), ("length", length)], w))
}
