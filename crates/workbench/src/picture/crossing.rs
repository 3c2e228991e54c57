//! Picture of a drilled crossing.

use assess::Assessment;
use ground::{Obstacle, Shape};
use project::{LineDesign, Project};
use quantity::Length;

use super::section::{self, Section};
use super::strips::{Strip, curve, limit, short, strip};
use super::{Cross, Parts, Plan, handles};

/// Points along the axis: enough for a smooth curve on a wide screen.
const POINTS: u32 = 200;
/// Share of the run that is shown beyond the ends.
const BESIDE: f64 = 0.04;

pub(super) fn parts<'a>(p: &'a Project, a: &Assessment) -> Parts<'a> {
    let system = quantity::reader();
    let length = p.line.length().si();
    let chainage_of = move |md: f64| p.line.sample(md).chainage.si();
    let handles = match &p.design {
        LineDesign::Level(design) => handles::of_level(design, system),
        _ => Vec::new(),
    };
    Parts {
        section: section(p),
        strips: strips(p, a, &chainage_of),
        plan: Some(plan(p, length)),
        cross: cross(p),
        handles,
        chainage_of: Box::new(chainage_of),
    }
}

fn stations(p: &Project) -> impl Iterator<Item = line::Station> + '_ {
    let length = p.line.length().si();
    (0..=POINTS).map(move |k| p.line.sample(length * f64::from(k) / f64::from(POINTS)))
}

fn section(p: &Project) -> Section {
    let run = p.line.run().si();
    let beside = run * BESIDE;
    let (from, to) = (-beside, run + beside);
    let lowest = p.line.lowest().level.si() - 4.0;
    let site = &p.site;
    let breaks = p.line.breakpoints();
    let tangents = breaks.split_last().map_or(&[][..], |(_, inner)| inner);
    Section {
        from,
        to,
        ground: section::ground_points(&site.ground),
        free_water: site.free_water_level.map(Length::si),
        groundwater: site.groundwater_level.map(Length::si),
        strata: p
            .strata
            .as_ref()
            .map_or_else(Vec::new, |model| section::strata(model, &site.ground, from, to, lowest)),
        borings: p.strata.iter().flat_map(|m| m.borings()).map(boring).collect(),
        obstacles: obstacles(&site.obstacles),
        axis: stations(p).map(|s| [s.chainage, s.level, s.md].map(|v| short(v.si()))).collect(),
        radius: 0.5 * p.bore.final_diameter.si(),
        tangents: tangents
            .iter()
            .map(|md| p.line.sample(md.si()))
            .map(|s| [s.chainage.si(), s.level.si()])
            .collect(),
        end_zones: vec![
            [0.0, site.end_zone_entry.si().min(run)],
            [(run - site.end_zone_exit.si()).max(0.0), run],
        ],
        signs: Vec::new(),
    }
}

fn boring(b: &ground::Boring) -> section::Boring {
    section::Boring {
        name: b.name.clone(),
        at: b.chainage.si(),
        top: b.level.si(),
        end: b.end().si(),
    }
}

fn obstacles(list: &[Obstacle]) -> Vec<section::Obstacle> {
    let ids = project::obstacle_ids(list);
    list.iter()
        .zip(ids)
        .map(|(o, id)| {
            let (from, to) = o.shape.stretch();
            let (level, diameter) = match o.shape {
                Shape::Above { underside, .. } => (underside, None),
                Shape::Round { level, diameter, .. } => (level, Some(diameter.si())),
            };
            section::Obstacle {
                name: o.name.clone(),
                kind: o.kind.word(),
                from: from.si(),
                to: to.si(),
                level: level.si(),
                diameter,
                clearance: o.clearance.map(Length::si),
                check: Some(format!("line.clearance.{id}")),
            }
        })
        .collect()
}

fn strips(p: &Project, a: &Assessment, at: &dyn Fn(f64) -> f64) -> Vec<Strip> {
    let of = |id: &str, name: &str, role| curve(a, id, name, role, at);
    let mut list = vec![
        strip(
            "pull",
            "pull, by position of the head",
            "N",
            vec![
                of("pull.head-force", "at the head, values of the checks", "acts"),
                of("pull.rig-force", "at the rig", "second"),
                of("pull.restart-force", "to start after a stop", "peak"),
                of("pull.head-force-expected", "expected in a well-kept bore", "expected"),
            ],
            vec![
                limit(a, "pull.joint-force", "joint"),
                limit(a, "pull.rig", "rig"),
                limit(a, "pull.rods", "rods"),
            ],
        ),
        strip(
            "joint-angle",
            "largest joint angle, by position of the head",
            "rad",
            vec![of("pull.joint-angle", "joint angle", "acts")],
            vec![
                p.string
                    .joint
                    .allowable_angle
                    .as_ref()
                    .map(|v| ("allowable".to_owned(), v.value.si())),
            ],
        ),
    ];
    for stage in &a.limits {
        list.push(strip(
            stage_id(&stage.id),
            format!("pressure of the fluid, {}", stage.name),
            "Pa",
            vec![
                of(&format!("fluid.pressure.{}", stage.id), "pressure", "acts"),
                of(&format!("fluid.allowed.{}", stage.id), "what may act", "allowed"),
                of(&format!("fluid.column.{}", stage.id), "column of fluid", "expected"),
            ],
            Vec::new(),
        ));
    }
    list.push(strip(
        "cover",
        "cover over the crown of the bore",
        "m",
        vec![of("line.cover", "cover", "acts")],
        vec![Some(("required".to_owned(), p.site.required_cover.si()))],
    ));
    list.into_iter().flatten().collect()
}

/// Names of strips stay known to the page.
fn stage_id(id: &str) -> &'static str {
    match id {
        "pilot" => "fluid-pilot",
        "pull" => "fluid-pull",
        _ => "fluid-ream",
    }
}

fn plan(p: &Project, length: f64) -> Plan {
    let place = |chainage: Length, offset: Length| {
        let md = p.line.md_at_chainage(chainage).map_or_else(
            |_| {
                if chainage.si() < 0.0 {
                    chainage.si()
                } else {
                    length + (chainage - p.line.run()).si()
                }
            },
            Length::si,
        );
        let station = p.line.sample(md);
        let at = station.position + station.right() * offset.si();
        (at.x, at.y)
    };
    let borings = p.strata.iter().flat_map(|m| m.borings()).map(|b| {
        let (x, y) = place(b.chainage, b.offset);
        (b.name.clone(), x, y)
    });
    Plan {
        axis: stations(p)
            .map(|s| [s.position.x, s.position.y, s.chainage.si()].map(short))
            .collect(),
        borings: borings.collect(),
        crossings: p
            .site
            .obstacles
            .iter()
            .map(|o| {
                let (from, to) = o.shape.stretch();
                (o.name.clone(), from.si(), to.si())
            })
            .collect(),
    }
}

fn cross(p: &Project) -> Cross {
    let mut circles = vec![("final bore".to_owned(), p.bore.final_diameter.si())];
    circles.extend(p.bore.pilot_diameter.map(|d| ("pilot bore".to_owned(), d.si())));
    let net = p.string.pipe.net_weight(p.fluid.density, p.string.contents);
    Cross {
        circles,
        socket: p.string.pipe.largest_diameter().map(Length::si),
        barrel: p.string.pipe.barrel_diameter().si(),
        floats: net.ok().map(|w| w.si() < 0.0),
    }
}
