use pull::bursting::{DRAG_GUIDE, GuideDrag, drag_guide, drag_guide_rounded};
use pull::published::PublishedError;
use quantity::{Length, UnitWeight, unit};
use working::{Builder, Evidence, Source};

use super::{COVER, FRICTION, LENGTH, UNIT_WEIGHT, size};
use crate::definition::{Output, Worksheet};
use crate::pulling::refused;
use crate::run::{Failure, Sheet, Values};

static OF_BOOK: Source = Source::new(
    "the book's example: Najafi, Trenchless Technology Piping, p. 270",
    Evidence::Published,
);
/// The friction of the book follows from its divisor and is not printed where it could be read.
static FROM_DIVISOR: Source =
    Source::new("the value that the book's divisor of 6 holds", Evidence::Computed);

pub(super) static BURST_GUIDE: Worksheet = Worksheet {
    id: "burst-guide",
    title: "drag by the planning guide, with the steps of its depth",
    inputs: &[
        COVER,
        size("outside_diameter", "D", "outside diameter of the new pipe"),
        LENGTH,
        UNIT_WEIGHT.or("100 lbf/ft3", &OF_BOOK),
        FRICTION.or("0.3", &FROM_DIVISOR),
    ],
    outputs: &[
        Output::new("force", "drag", unit::KN),
        Output::new("force_rounded", "by the book's rounded US form", unit::KN),
        Output::new("effective_depth", "depth that counts", unit::M),
        Output::new("depth_ratio", "depth over diameter", unit::ONE),
        Output::new("depth_share", "share of the depth that counts", unit::ONE),
        Output::new("near_step", "step within 10 % of the depth ratio", unit::ONE),
        Output::new("force_beyond", "drag beyond that step; else the drag", unit::KN),
    ],
    source: DRAG_GUIDE.source(),
    example: &[("cover", "120 in"), ("outside_diameter", "12 in"), ("length", "250 ft")],
    run: run_guide,
};

/// The steps of the guide from `gamma`, `H`, `D`, `L` and `mu`, which stand in the working.
pub(super) fn guide_steps(
    w: &mut Builder,
    unit_weight: UnitWeight,
    cover: Length,
    diameter: Length,
    length: Length,
    friction: f64,
) -> Result<GuideDrag, PublishedError> {
    let guide = drag_guide(unit_weight, cover, diameter, length, friction)?;
    let source = || DRAG_GUIDE.source();
    w.result("r", "depth over diameter", "H/D", guide.depth_ratio, unit::ONE, source());
    let share = match guide.depth_share {
        s if s > 0.9 => "1",
        s if s > 0.6 => "2/3",
        s if s > 0.4 => "1/2",
        _ => "1/3",
    };
    w.result("m", "share of the depth", share, guide.depth_share, unit::ONE, source());
    let depth = guide.effective_depth.si();
    w.result("d_eff", "depth that counts", "m*H", depth, unit::M, source());
    let formula = "0.25*gamma*d_eff*pi*D*L*mu";
    w.result("T", "drag", formula, guide.force.si(), unit::KN, source());
    if let Some(step) = guide.near_step {
        let meaning = format!("drag beyond the step at {}", step.at);
        let share = step.force / guide.force * guide.depth_share;
        if share.is_finite() {
            w.found(
                "m_2",
                "share beyond the step",
                "share on its other side",
                share,
                unit::ONE,
                source(),
            );
            let formula = "0.25*gamma*m_2*H*pi*D*L*mu";
            w.result("T_2", &meaning, formula, step.force.si(), unit::KN, source());
        }
    }
    Ok(guide)
}

fn run_guide(v: &Values) -> Result<Sheet, Failure> {
    let metres = |key| Length::from_si(v.si(key));
    let (cover, diameter, length) = (metres("cover"), metres("outside_diameter"), metres("length"));
    let gamma = UnitWeight::from_si(v.si("unit_weight"));
    let at = |e| refused(&BURST_GUIDE, &e);
    let mut w = v.open();
    let guide =
        guide_steps(&mut w, gamma, cover, diameter, length, v.si("friction")).map_err(at)?;
    let rounded = drag_guide_rounded(cover, diameter, length).map_err(at)?.force.si();
    // Inches, feet and pounds-force of the book's form.
    let formula = "d_eff/0.0254*D/0.0254*(L/0.3048)/6*4.4482216152605";
    let source = DRAG_GUIDE.source();
    w.result("T_r", "by the book's rounded form", formula, rounded, unit::KN, source);
    let near = guide.near_step.map_or("none", |step| match step.at {
        at if at < 7.0 => "5",
        at if at < 15.0 => "10",
        _ => "20",
    });
    let beyond = guide.near_step.map_or(guide.force, |step| step.force).si();
    Ok(Sheet::new(
        &[
            ("force", guide.force.si()),
            ("force_rounded", rounded),
            ("effective_depth", guide.effective_depth.si()),
            ("depth_ratio", guide.depth_ratio),
            ("depth_share", guide.depth_share),
            ("force_beyond", beyond),
        ],
        w,
    )
    .with_word("near_step", near))
}
