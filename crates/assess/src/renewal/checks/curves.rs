//! Curves of the old main, which the new string follows.

use quantity::{Angle, Length, unit};
use working::{Evidence, Source};

use super::RATIO;
use crate::assessment::{Reading, Stage};
use crate::item::{About, Item};
use crate::renewal::context::Context;
use crate::renewal::forces::turns;

const CHORD: Source =
    Source::new("barrels as chords of the curve, plane geometry", Evidence::Derived);
/// Turn at one point above which the old main has a fitting there, rad: 11 deg.
const FITTING: f64 = 11.0 * std::f64::consts::PI / 180.0;

/// The joint angle that the sharpest place of the old main asks for.
struct Sharpest {
    at: Length,
    angle: Angle,
    /// Radius of a curve; none where the main turns at one point.
    radius: Option<Length>,
    turn: Angle,
}

fn sharpest(c: &Context<'_>) -> Option<Sharpest> {
    let r = c.renewal;
    let a = r.string.pipe.laying_length();
    let curves = r.host.bends.iter().filter_map(|b| Some((b.at, b.angle, b.radius?)));
    let on_radius = curves.filter(|(at, ..)| c.in_a_run(*at)).map(|(at, turn, radius)| {
        let half = (a / (radius * 2.0)).min(1.0);
        // A short curve turns no joint by more than the whole of it.
        let angle = Angle::from_si(2.0 * half.asin()).min(turn);
        Sharpest { at, angle, radius: Some(radius), turn }
    });
    let gradual = |at: Length| r.host.bends.iter().any(|b| b.at == at && b.radius.is_some());
    let at_points = r
        .runs
        .iter()
        .flat_map(|run| turns(c, run))
        .filter(|(at, _)| !gradual(*at))
        .map(|(at, turn)| Sharpest { at, angle: turn, radius: None, turn });
    on_radius.chain(at_points).max_by(|a, b| a.angle.si().total_cmp(&b.angle.si()))
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
        Some(s) => match s.radius {
            Some(radius) => {
                format!("the old main turns by {} on a radius of {radius} at {}", s.turn, s.at)
            }
            None if s.turn.si() > FITTING => {
                format!("the old main turns by {} at {}: a fitting, to be dug out", s.turn, s.at)
            }
            None => format!(
                "the old main turns by {} at one point, {}: one joint takes it all",
                s.turn, s.at
            ),
        },
    };
    let item = about.at_most(degrees(angle), degrees(limit), r.factors.attention, because);
    let item = match &found {
        Some(s) => item.at(s.at),
        None => item,
    };
    item.worked(c.working(|w| {
        if let Some(Sharpest { radius: Some(radius), turn, .. }) = &found {
            let v = &r.string.pipe.data().laying_length;
            w.given_from("a", "laying length", v.value.si(), unit::M, v.source.clone());
            w.given("R", "radius of the curve", radius.si(), unit::M);
            w.given("beta", "turn of the curve", turn.si(), unit::DEG);
            w.result("theta", "joint angle", "min(2*asin(min(a/(2*R), 1)), beta)", angle.si(), unit::DEG, CHORD);
        } else {
            w.found("theta", "joint angle", "turn at one point of the old main", angle.si(), unit::DEG, CHORD);
        }
        w.given_from("theta_all", "allowable joint angle", allowable.value.si(), unit::DEG, allowable.source.clone());
        w.given_from("q", "share that curves may use", r.factors.joint_angle_share, unit::ONE, r.source_of("/factors/joint_angle_share"));
        w.derive("U", "utilisation", "theta/(q*theta_all)", unit::ONE, RATIO);
    }))
    .note("The head follows the old main. A cone smooths a small kink; a pulled joint of the old main lets the new one turn over two joints at best.")
}
