//! Curves along the old main.

use quantity::Length;

use super::checks::movement;
use super::context::Context;
use crate::assessment::Profile;

/// Every curve; `md` is the chainage.
pub(super) fn all(c: &Context<'_>) -> Vec<Profile> {
    let r = c.renewal;
    let axis: Vec<f64> = {
        let (from, to) = (r.host.axis.from().si(), r.host.axis.to().si());
        let count = (to - from).ceil().max(1.0);
        let mut k = 0.0;
        let mut list = Vec::new();
        while k <= count {
            list.push(from + (to - from) * k / count);
            k += 1.0;
        }
        list
    };
    let along = |id: &str, title: &str, value: &dyn Fn(Length) -> f64| Profile {
        id: id.to_owned(),
        title: title.to_owned(),
        values: axis.iter().map(|x| value(Length::from_si(*x))).collect(),
        md: axis.clone(),
        unit: "m",
    };
    let mut list = vec![
        along("host.level", "level of the old main's axis", &|x| {
            r.host.axis.level_extended(x).si()
        }),
        along("host.cover", "ground above the new barrel", &|x| c.cover(x).si()),
    ];
    list.extend(movement::profiles(c));
    list.extend(along_pull(c));
    let Ok(runs) = c.forces() else { return list };
    for f in runs {
        let Some(run) = r.runs.get(f.run) else { continue };
        let mut places: Vec<_> = f.places.iter().collect();
        places.sort_by(|a, b| a.at.si().total_cmp(&b.at.si()));
        let ends = [("low", 0), ("planning", 1), ("high", 2)];
        for (what, title, of) in [
            (
                "rig",
                "force on the machine",
                (|p: &super::forces::PlaceForces| p.rig)
                    as fn(&super::forces::PlaceForces) -> super::forces::Band,
            ),
            ("string", "force in the string", |p| p.string),
        ] {
            for (end, k) in ends {
                list.push(Profile {
                    id: format!("burst.force.{what}.{end}.{}", f.run + 1),
                    title: format!("{title}, {end}, run {}", run.name),
                    md: places.iter().map(|p| p.at.si()).collect(),
                    values: places.iter().map(|p| of(p)[k].si()).collect(),
                    unit: "N",
                });
            }
        }
    }
    list
}

/// Heave of the surface above the axis while the head stands where it is greatest, in ground that spreads.
fn along_pull(c: &Context<'_>) -> Option<Profile> {
    let (run, worst) = movement::most_heaved(c)?;
    let onward = if run.machine > run.launch { 1.0 } else { -1.0 };
    let mut points: Vec<(f64, f64)> = c
        .places(run)
        .into_iter()
        .filter_map(|x| {
            let behind = (worst.at - x) * onward;
            let up = ground::along_pull(worst.passing(), worst.depth, Length::ZERO, behind);
            Some((x.si(), up.ok()?.si()))
        })
        .collect();
    points.sort_by(|a, b| a.0.total_cmp(&b.0));
    Some(Profile {
        id: "burst.along-pull".to_owned(),
        title: format!(
            "heave of the surface with the head at {}, run {}: half-space, depth as there",
            worst.at, run.name
        ),
        md: points.iter().map(|p| p.0).collect(),
        values: points.iter().map(|p| p.1).collect(),
        unit: "m",
    })
}
