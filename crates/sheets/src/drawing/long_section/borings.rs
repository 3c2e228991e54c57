//! Logs of borings at their chainage.

use ground::Boring;
use project::Project;

use super::Section;
use crate::drawing::key::Swatch;
use crate::drawing::labels::Prefer;
use crate::drawing::parts::pattern_of;
use crate::scene::{Layer, Mark, Point, SymbolKind};

/// Width of a log, mm.
const WIDTH: f64 = 3.0;

fn shown<'a>(section: &Section<'a>) -> Vec<&'a Boring> {
    let project: &'a Project = section.project;
    let (from, to) = section.canvas.across();
    project
        .strata
        .iter()
        .flat_map(|model| model.borings())
        .filter(|b| b.chainage.si() >= from && b.chainage.si() <= to)
        .collect()
}

/// Draws the logs.
pub(super) fn draw(section: &mut Section<'_>) {
    let Some(model) = &section.project.strata else { return };
    let half = section.canvas.view.across(WIDTH / 2.0);
    let list = shown(section);
    for boring in &list {
        let x = boring.chainage.si();
        let ring = |top: f64, base: f64| {
            [(x - half, base), (x + half, base), (x + half, top), (x - half, top)]
                .map(|(x, y)| Point::new(x, y))
                .to_vec()
        };
        let mut top = boring.level.si();
        let whole = ring(top, boring.end().si());
        section.canvas.push(Mark::area(Layer::Boring, whole.clone(), crate::scene::Pattern::Blank));
        for stratum in &boring.strata {
            let base = stratum.base.si();
            if let Some(soil) = model.soils().get(stratum.soil) {
                let pattern = pattern_of(soil.kind);
                section.canvas.push(Mark::area(Layer::Strata, ring(top, base), pattern));
            }
            let ends = (Point::new(x - half, base), Point::new(x + half, base));
            section.canvas.push(Mark::line(Layer::Boring, ends.0, ends.1));
            top = base;
        }
        section.canvas.push(Mark::outline(Layer::Boring, whole));
        let head = Point::new(x, boring.level.si());
        section.canvas.push(Mark::symbol(Layer::Boring, head, SymbolKind::Boring, 2.4));
        for edge in [x - half, x + half] {
            section.canvas.avoid(&[Point::new(edge, top), Point::new(edge, boring.level.si())]);
        }
        if let Some(level) = boring.groundwater_level {
            let at = Point::new(x + half, level.si());
            let stroke = Point::new(x + 2.0 * half, level.si());
            section.canvas.push(Mark::line(Layer::Water, at, stroke));
        }
    }
    if !list.is_empty() {
        let words = "boring, its log drawn into the section".to_owned();
        section.key.push((Swatch::Sign(Layer::Boring, SymbolKind::Boring), words));
    }
}

/// Names with their offset from the line.
pub(super) fn labels(section: &mut Section<'_>) {
    for boring in shown(section) {
        let at = Point::new(boring.chainage.si(), boring.level.si());
        let mut lines = vec![boring.name.clone(), offset_words(section.reader, boring.offset.si())];
        let end = boring.end().si();
        if end < section.canvas.levels().0 {
            lines.push(format!("down to {}", section.reader.place(end)));
        }
        section.canvas.label(at, &lines, Prefer::Above);
    }
}

/// `7 m right`.
pub(in crate::drawing) fn offset_words(
    reader: crate::drawing::reader::Reader,
    offset: f64,
) -> String {
    if offset == 0.0 {
        return "on the line".to_owned();
    }
    let side = if offset > 0.0 { "right" } else { "left" };
    format!("{} {side}", reader.length(offset.abs()))
}
