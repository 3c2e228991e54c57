//! Curves of the old main, which the new string follows.

use project::Run;
use quantity::{Angle, Length, unit};
use working::{Evidence, Source};

use super::RATIO;
use crate::assessment::{Reading, Stage};
use crate::item::{About, Item};
use crate::renewal::context::Context;
use crate::renewal::forces::{PointTurn, all_point_turns, curves, point_turns};

const CHORD: Source =
    Source::new("barrels as chords of the curve, plane geometry", Evidence::Derived);
/// Turn at one point above which the old main has a fitting there, rad: 11 deg.
const FITTING: f64 = 11.0 * std::f64::consts::PI / 180.0;

/// The joint angle that the sharpest place of the old main asks for.
struct Sharpest {
    at: Length,
    angle: Angle,
    kind: Kind,
}

/// What turns there.
enum Kind {
    /// A curve of a radius and a turn.
    Curve(Length, Angle),
    /// Turns at points within a laying length, and curves that reach there: to a side, up, and how many.
    Points(Angle, Angle, usize),
}

/// Joint angle of a curve: its barrels are chords.
fn on_curve(c: &Context<'_>, radius: Length, turn: Angle) -> Angle {
    let half = (c.renewal.string.pipe.laying_length() / (radius * 2.0)).min(1.0);
    // A short curve turns no joint by more than the whole of it.
    Angle::from_si(2.0 * half.asin()).min(turn)
}

/// Turns within one laying length from a point on: no pipe bends between them, so one joint may have to take them all.
fn from_point(c: &Context<'_>, run: &Run, points: &[PointTurn]) -> Option<Sharpest> {
    let at = points.first()?.at;
    let end = at + c.renewal.string.pipe.laying_length();
    let near: Vec<f64> = curves(c, run)
        .iter()
        .filter(|(b, _, half)| b.at + *half >= at && b.at - *half <= end)
        .map(|(b, radius, _)| on_curve(c, *radius, b.angle).si())
        .collect();
    let beside: f64 = near.iter().sum();
    let (mut aside, mut up) = (0.0, 0.0);
    let mut sharpest: Option<Sharpest> = None;
    for (i, point) in points.iter().take_while(|p| p.at <= end).enumerate() {
        // The file gives a bend no direction to the side: two of them may add up.
        aside += point.aside.si().abs();
        up += point.up.si();
        let side = Angle::from_si(aside + beside);
        let angle = Angle::from_si(side.si().hypot(up));
        if sharpest.as_ref().is_none_or(|s| angle > s.angle) {
            let kind = Kind::Points(side, Angle::from_si(up), i + 1 + near.len());
            sharpest = Some(Sharpest { at, angle, kind });
        }
    }
    sharpest
}

fn sharpest(c: &Context<'_>) -> Option<Sharpest> {
    let runs = &c.renewal.runs;
    let on_radius = runs.iter().flat_map(|run| curves(c, run)).map(|(b, radius, _)| Sharpest {
        at: b.at,
        angle: on_curve(c, radius, b.angle),
        kind: Kind::Curve(radius, b.angle),
    });
    let at_points = runs.iter().flat_map(|run| {
        let points = point_turns(c, run);
        (0..points.len()).filter_map(|i| from_point(c, run, points.get(i..)?)).collect::<Vec<_>>()
    });
    on_radius.chain(at_points).reduce(|a, b| if b.angle > a.angle { b } else { a })
}

/// The sentence on turns that lie in a pit.
fn in_pits(c: &Context<'_>) -> String {
    let at_pit = |at: Length| {
        let mut pits = c.renewal.runs.iter().flat_map(|run| [run.launch, run.machine]);
        pits.any(|pit| (pit - at).abs().si() <= 1e-9)
    };
    let turns = all_point_turns(c);
    let list: Vec<_> = turns
        .iter()
        .filter(|t| at_pit(t.at))
        .map(|t| format!("{} at {}", Angle::from_si(t.aside.si().hypot(t.up.si())), t.at))
        .collect();
    if list.is_empty() {
        String::new()
    } else {
        format!("; the turn of {} lies in a pit, where a fitting takes it", list.join(", "))
    }
}

/// Largest joint angle on the curves of the old main.
pub(super) fn joint_angle(c: &Context<'_>) -> Item {
    let r = c.renewal;
    let joint = &r.string.joint;
    let about = About::new(
        "line.joint-angle",
        "joint angle that the old main's curves ask for",
        Stage::Pull,
        joint.allowable_angle.as_ref().map_or(CHORD, |v| v.source.clone()),
    );
    let degrees = |v: Angle| Reading::new(v.si(), unit::DEG);
    let found = sharpest(c);
    let angle = found.as_ref().map_or(Angle::ZERO, |s| s.angle);
    let Some(allowable) = &joint.allowable_angle else {
        return about
            .not_assessed(
                &["/string/joint/allowable_angle"],
                "the allowable angle of the joint is not known",
            )
            .acting(degrees(angle));
    };
    let limit = allowable.value * r.factors.joint_angle_share;
    let because = match &found {
        None => "the runs are straight".to_owned(),
        Some(Sharpest { at, kind: Kind::Curve(radius, turn), .. }) => {
            format!("the old main turns by {turn} on a radius of {radius} at {at}")
        }
        Some(Sharpest { at, kind: Kind::Points(_, _, 2..), .. }) => format!(
            "the old main turns by {angle} within one laying length from {at} on: one joint may have to take it all"
        ),
        Some(Sharpest { at, .. }) if angle.si() > FITTING => {
            format!("the old main turns by {angle} at {at}: a fitting, to be dug out")
        }
        Some(Sharpest { at, .. }) => {
            format!("the old main turns by {angle} at one point, {at}: one joint takes it all")
        }
    };
    let because = format!("{because}{}", in_pits(c));
    let item = about.at_most(degrees(angle), degrees(limit), r.factors.attention, because);
    let item = match &found {
        Some(s) => item.at(s.at),
        None => item,
    };
    item.worked(c.working(|w| {
        match &found {
            Some(Sharpest { kind: Kind::Curve(radius, turn), .. }) => {
                let v = &r.string.pipe.data().laying_length;
                w.given_from("a", "laying length", v.value.si(), unit::M, v.source.clone());
                w.given("R", "radius of the curve", radius.si(), unit::M);
                w.given("beta", "turn of the curve", turn.si(), unit::DEG);
                w.result("theta", "joint angle", "min(2*asin(min(a/(2*R), 1)), beta)", angle.si(), unit::DEG, CHORD);
            }
            Some(Sharpest { kind: Kind::Points(side, up, _), .. }) => {
                w.found("beta_h", "turns to a side within one laying length", "sum of bends and of joint angles on curves", side.si(), unit::DEG, CHORD);
                w.found("beta_v", "turns up, less turns down, within one laying length", "changes of slope", up.si(), unit::DEG, CHORD);
                w.result("theta", "joint angle", "sqrt(beta_h^2 + beta_v^2)", angle.si(), unit::DEG, CHORD);
            }
            None => {
                w.found("theta", "joint angle", "the runs are straight", 0.0, unit::DEG, CHORD);
            }
        }
        w.given_from("theta_all", "allowable joint angle", allowable.value.si(), unit::DEG, allowable.source.clone());
        w.given_from("q", "share that curves may use", r.factors.joint_angle_share, unit::ONE, r.source_of("/factors/joint_angle_share"));
        w.derive("U", "utilisation", "theta/(q*theta_all)", unit::ONE, RATIO);
    }))
    .note("The head follows the old main. A cone smooths a small kink; a pulled joint of the old main lets the new one turn over two joints at best.")
}
