//! Curves along the bore.

use quantity::Length;

use crate::assessment::Profile;
use crate::context::{Context, Run};
use crate::ground_profiles;

/// Spacing of the curves of the line, m.
const SPACING: f64 = 1.0;

/// Every curve.
pub(crate) fn all(c: &Context<'_>) -> Vec<Profile> {
    let mut profiles = line(c);
    profiles.extend(ground_profiles::all(c));
    if let Ok(run) = c.design() {
        profiles.extend([
            heads(run, "pull.head-force", "pull at the head, by its position", "N", |_, h| {
                h.force.si()
            }),
            heads(
                run,
                "pull.rig-force",
                "pull at the rig, by position of the head",
                "N",
                |i, _| run.rig.get(i).map_or(f64::NAN, |f| f.si()),
            ),
            heads(
                run,
                "pull.joint-angle",
                "largest joint angle, by position of the head",
                "rad",
                |_, h| h.angle.value.si(),
            ),
            heads(
                run,
                "pull.side-force",
                "largest force of a joint on the wall, by position of the head",
                "N",
                |_, h| h.side_force.value.si(),
            ),
        ]);
    }
    if let Ok(run) = c.expected() {
        profiles.push(heads(
            run,
            "pull.head-force-expected",
            "pull at the head with expected friction, by its position",
            "N",
            |_, h| h.force.si(),
        ));
    }
    if let Ok(run) = c.restart() {
        profiles.push(heads(
            run,
            "pull.restart-force",
            "pull at the head to start after a stop, by its position",
            "N",
            |_, h| h.force.si(),
        ));
    }
    profiles
}

fn heads(
    run: &Run,
    id: &str,
    title: &str,
    unit: &'static str,
    value: impl Fn(usize, &pull::chain::HeadPosition) -> f64,
) -> Profile {
    let mut points: Vec<_> =
        run.pull.heads.iter().enumerate().map(|(i, h)| (h.md.si(), value(i, h))).collect();
    points.sort_by(|a, b| a.0.total_cmp(&b.0));
    Profile {
        id: id.to_owned(),
        title: title.to_owned(),
        md: points.iter().map(|p| p.0).collect(),
        values: points.iter().map(|p| p.1).collect(),
        unit,
    }
}

fn line(c: &Context<'_>) -> Vec<Profile> {
    let p = c.project;
    let end = p.line.length().si();
    let mut md: Vec<f64> =
        (0..).map(|k| SPACING * f64::from(k)).take_while(|s| *s < end - 1e-9).collect();
    md.push(end);
    let stations: Vec<_> = md.iter().map(|s| p.line.sample(*s)).collect();
    let profile = |id: &str, title: &str, unit, value: &dyn Fn(&line::Station) -> f64| Profile {
        id: id.to_owned(),
        title: title.to_owned(),
        md: md.clone(),
        values: stations.iter().map(value).collect(),
        unit,
    };
    let mut profiles = vec![
        profile("line.level", "level of the bore axis", "m", &|s| s.level.si()),
        profile("line.inclination", "inclination of the bore", "rad", &|s| s.inclination.si()),
        profile("line.curvature", "curvature of the bore", "1/m", &|s| s.curvature.length()),
    ];
    let radius = p.bore.final_diameter / 2.0;
    if let Ok(cover) =
        ground::cover_profile(&p.line, &p.site.ground, radius, Length::from_si(SPACING))
    {
        profiles.push(Profile {
            id: "line.cover".to_owned(),
            title: "cover over the crown of the bore".to_owned(),
            md: cover.iter().map(|s| s.md.si()).collect(),
            values: cover.iter().map(|s| s.vertical.si()).collect(),
            unit: "m",
        });
    }
    profiles
}
