//! Values of the bore line that may be changed.

use line::Element;
use project::{LineDesign, Project};
use quantity::{Angle, Length, unit};

use super::knob::Knob;

/// Changes a level design and lays the line anew; `false` where no line can be had.
fn relay(project: &mut Project, change: impl Fn(&mut line::LevelDesign)) -> bool {
    let LineDesign::Level(design) = &mut project.design else { return false };
    change(design);
    match line::Line::from_level(design) {
        Ok(line) => {
            project.line = line;
            true
        }
        Err(_) => false,
    }
}

/// Every radius, larger or smaller.
pub(super) fn radii(project: &Project, larger: bool) -> Vec<Knob> {
    match &project.design {
        LineDesign::Level(design) => level_radii(design, larger),
        LineDesign::Elements { elements, .. } => element_radii(elements, larger),
        LineDesign::Survey => Vec::new(),
    }
}

/// As far as a radius is searched.
fn far(radius: Length, larger: bool) -> f64 {
    if larger { 4.0 * radius.si() + 100.0 } else { 0.25 * radius.si() }
}

fn level_radii(design: &line::LevelDesign, larger: bool) -> Vec<Knob> {
    let knob = |parameter: &str, from: Length, set: fn(&mut line::LevelDesign, Length)| Knob {
        parameter: parameter.to_owned(),
        unit: unit::M,
        from: from.si(),
        to: far(from, larger),
        step: 1.0,
        note: "",
        several: false,
        set: Box::new(move |p, v| relay(p, |d| set(d, Length::from_si(v)))),
    };
    let mut knobs = vec![
        knob("/line/entry_radius", design.entry_radius, |d, r| d.entry_radius = r),
        knob("/line/exit_radius", design.exit_radius, |d, r| d.exit_radius = r),
    ];
    for (index, bend) in design.bends.iter().enumerate() {
        knobs.push(Knob {
            parameter: format!("/line/bend/{index}/radius"),
            unit: unit::M,
            from: bend.radius.si(),
            to: far(bend.radius, larger),
            step: 1.0,
            note: "",
            several: false,
            set: Box::new(move |p, v| {
                relay(p, |d| {
                    if let Some(bend) = d.bends.get_mut(index) {
                        bend.radius = Length::from_si(v);
                    }
                })
            }),
        });
    }
    if larger {
        let least = design.entry_radius.min(design.exit_radius);
        knobs.push(Knob {
            parameter: "/line/entry_radius and exit_radius, each at least".to_owned(),
            unit: unit::M,
            from: least.si(),
            to: far(least, true),
            step: 1.0,
            note: "",
            several: true,
            set: Box::new(move |p, v| {
                let v = Length::from_si(v);
                relay(p, |d| {
                    d.entry_radius = d.entry_radius.max(v);
                    d.exit_radius = d.exit_radius.max(v);
                })
            }),
        });
    }
    knobs
}

fn element_radii(elements: &[Element], larger: bool) -> Vec<Knob> {
    elements
        .iter()
        .enumerate()
        .filter_map(|(index, element)| match element {
            Element::Arc { radius, .. } => Some((index, *radius)),
            Element::Straight { .. } => None,
        })
        .map(|(index, radius)| Knob {
            parameter: format!("/line/element/{index}/radius"),
            unit: unit::M,
            from: radius.si(),
            to: far(radius, larger),
            step: 1.0,
            note: "the elements behind it move along",
            several: false,
            set: Box::new(move |p: &mut Project, v| {
                let LineDesign::Elements { start, elements } = &mut p.design else { return false };
                if let Some(Element::Arc { radius, .. }) = elements.get_mut(index) {
                    *radius = Length::from_si(v);
                }
                match line::Line::from_elements(*start, elements) {
                    // The ground line must still cover the bore.
                    Ok(line) if line.run() <= p.site.ground.to() => {
                        p.line = line;
                        true
                    }
                    _ => false,
                }
            }),
        })
        .collect()
}

/// The level of the level part, lower or higher.
pub(super) fn lowest_level(project: &Project, by: f64) -> Option<Knob> {
    let LineDesign::Level(design) = &project.design else { return None };
    Some(Knob {
        parameter: "/line/lowest_level".to_owned(),
        unit: unit::M,
        from: design.lowest_level.si(),
        to: design.lowest_level.si() + by,
        step: 0.1,
        note: "",
        several: false,
        set: Box::new(|p, v| relay(p, |d| d.lowest_level = Length::from_si(v))),
    })
}

/// An end's angle, flatter or steeper.
pub(super) fn end_angle(project: &Project, entry: bool, steeper: bool) -> Option<Knob> {
    let LineDesign::Level(design) = &project.design else { return None };
    let from = if entry { design.entry_angle } else { design.exit_angle };
    Some(Knob {
        parameter: if entry { "/line/entry_angle" } else { "/line/exit_angle" }.to_owned(),
        unit: unit::DEG,
        from: from.si(),
        to: from.si() * if steeper { 1.8 } else { 0.3 },
        step: 0.1f64.to_radians(),
        note: "",
        several: false,
        set: Box::new(move |p, v| {
            relay(p, |d| {
                let angle = Angle::from_si(v);
                if entry {
                    d.entry_angle = angle;
                } else {
                    d.exit_angle = angle;
                }
            })
        }),
    })
}
