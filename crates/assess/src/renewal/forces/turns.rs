//! Turns of the old main: at points, and on curves.

use project::{HostBend, Run};
use quantity::{Angle, Length};

use crate::renewal::context::Context;

/// A turn of the old main at one point: to a side, and up (negative down).
#[derive(Clone, Copy)]
pub(in crate::renewal) struct PointTurn {
    pub at: Length,
    pub aside: Angle,
    pub up: Angle,
}

/// Bends at one point and changes of slope between the pits of a run. What lies in a pit is not there any more: the
/// old main is cut out, and a fitting takes the turn.
pub(in crate::renewal) fn point_turns(c: &Context<'_>, run: &Run) -> Vec<PointTurn> {
    let (from, to) = run.stretch();
    let mut list = all_point_turns(c);
    list.retain(|t| (t.at - from).si() > 1e-9 && (to - t.at).si() > 1e-9);
    list
}

/// Every turn of the old main at one point, in order.
pub(in crate::renewal) fn all_point_turns(c: &Context<'_>) -> Vec<PointTurn> {
    let host = &c.renewal.host;
    let bends = host.bends.iter().filter(|b| b.radius.is_none());
    let mut list: Vec<_> =
        bends.map(|b| PointTurn { at: b.at, aside: b.angle, up: Angle::ZERO }).collect();
    let points: Vec<_> = host.axis.points().collect();
    for three in points.windows(3) {
        let [a, b, d] = three else { continue };
        let slope = |p: &(Length, Length), q: &(Length, Length)| ((q.1 - p.1) / (q.0 - p.0)).atan();
        let up = slope(b, d) - slope(a, b);
        if up != 0.0 {
            list.push(PointTurn { at: b.0, aside: Angle::ZERO, up: Angle::from_si(up) });
        }
    }
    list.sort_by(|a, b| a.at.si().total_cmp(&b.at.si()));
    list
}

/// Curves of the old main that reach into a run between its pits: the bend, its radius, half its length.
pub(in crate::renewal) fn curves(c: &Context<'_>, run: &Run) -> Vec<(HostBend, Length, Length)> {
    let (from, to) = run.stretch();
    let with_radius = c.renewal.host.bends.iter().filter_map(|b| Some((*b, b.radius?)));
    let all = with_radius.map(|(b, radius)| (b, radius, radius * (b.angle.si() / 2.0)));
    all.filter(|(b, _, half)| b.at + *half > from && b.at - *half < to).collect()
}

/// Sum of the turns of the old main in a run.
pub(super) fn all_turns(c: &Context<'_>, run: &Run) -> Angle {
    let at_points: f64 =
        point_turns(c, run).iter().map(|t| t.aside.si().abs() + t.up.si().abs()).sum();
    let on_curves: f64 = curves(c, run).iter().map(|(b, ..)| b.angle.si()).sum();
    Angle::from_si(at_points + on_curves)
}
