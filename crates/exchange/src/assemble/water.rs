use crate::issue::Issues;
use crate::records::{WaterKind, WaterRecord};
use crate::spec::DEPTH;

use super::Boring;

/// Depth of standing water, and the strikes from the top down.
///
/// Standing water is the shallowest reading at rest between the ground and the end of the boring, for the higher level
/// asks more of a bore and a pipe; where there is none, the shallowest strike, for water stood there at least.
pub(super) fn water(
    boring: &Boring<'_>,
    rows: &[WaterRecord],
    issues: &mut Issues,
) -> (Option<f64>, Vec<f64>) {
    let sensible: Vec<_> = rows.iter().filter(|row| is_sensible(boring, row, issues)).collect();
    let of = |kind: WaterKind| {
        let mut depths: Vec<_> =
            sensible.iter().filter(|row| row.kind == kind).map(|row| row.depth.value).collect();
        depths.sort_by(f64::total_cmp);
        depths
    };
    let strikes = of(WaterKind::Strike);
    let standing = of(WaterKind::Standing);
    (standing.first().or(strikes.first()).copied(), strikes)
}

fn is_sensible(boring: &Boring<'_>, row: &WaterRecord, issues: &mut Issues) -> bool {
    let depth = &row.depth;
    if depth.value < 0.0 {
        issues
            .warning(
                "water_above_ground",
                depth.place,
                format!(
                    "water of boring {} stands {} above the ground and was left out",
                    boring.id(),
                    DEPTH.show(-depth.value)
                ),
            )
            .found(DEPTH.show(depth.value))
            .hint("artesian water must be judged by hand; otherwise correct the sign");
        return false;
    }
    if boring.is_below(depth.value) {
        boring.warn_below("water", depth, "it was left out; correct one of the two depths", issues);
        return false;
    }
    true
}
