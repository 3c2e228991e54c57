//! A drawing as DXF of the year 2010 (AC1024, UTF-8), written by hand.
//!
//! The model space holds the real world of the first view, in metres and one to one, also where the sheet draws it
//! higher than wide. A view of the same name on another sheet adds its marks; a mark that is there already is not
//! repeated. Views of other names (a plan below a section) have coordinates of their own, which would lie across the
//! first: they are drawn flat on the paper, in mm. Each sheet is a layout in mm. The first view is seen there through a
//! viewport where both its scales are the same; otherwise it too is drawn flat, cut at its frame, because no viewport can
//! stretch. Dimensions are entities in the model; their words are those of the sheet.

use std::collections::HashSet;

use self::codes::{Codes, Handles};
use self::entities::Space;
use self::tables::{Block, Layout, fixed};
use super::flat::{Onto, dimensioned, flatten};
use super::{Anchor, Drawing, Layer, Mark, Point, Shape, View};

mod clip;
mod codes;
mod entities;
mod tables;

/// A drawing as DXF.
#[must_use]
pub fn dxf(drawing: &Drawing) -> Vec<u8> {
    let mut handles = Handles(fixed::LAST);
    let shown: Option<&str> =
        drawing.sheets.iter().flat_map(|s| &s.views).map(|v| v.name.as_str()).next();
    let in_model = |view: &View| Some(view.name.as_str()) == shown;

    let mut record = Block::new("*Model_Space", true, &mut handles);
    record.layout = handles.next();
    let views: Vec<&View> =
        drawing.sheets.iter().flat_map(|s| &s.views).filter(|v| in_model(v)).collect();
    let mut model = Model::new(record.record);
    for view in &views {
        model.view(view, &mut handles);
    }
    model.note(&views, &mut handles);

    let size = drawing.sheets.first().map_or((420.0, 297.0), |s| (s.width, s.height));
    let mut layouts = vec![Layout {
        name: "Model".to_owned(),
        handle: record.layout,
        record: record.record,
        size,
        window: None,
    }];
    let mut blocks = vec![record];
    let mut papers = String::new();
    for (index, sheet) in drawing.sheets.iter().enumerate() {
        // The first layout is the block without number, and its entities stand with those of the model.
        let name = match index.checked_sub(1) {
            None => "*Paper_Space".to_owned(),
            Some(number) => format!("*Paper_Space{number}"),
        };
        let mut block = Block::new(&name, true, &mut handles);
        block.layout = handles.next();
        let mut space = Space::new(block.record, true);
        let window = space.main_viewport(sheet.width, sheet.height, &mut handles);
        let mut id = 1;
        for view in &sheet.views {
            if in_model(view) && view.even() {
                id += 1;
                space.viewport(id, view, &mut handles);
                continue;
            }
            for mark in view.marks.iter().flat_map(|m| flatten(m, Onto::View(view))) {
                for part in clip::clipped(mark, view.frame) {
                    space.mark(&part, &mut handles);
                }
            }
        }
        for mark in sheet.marks.iter().flat_map(|m| flatten(m, Onto::Paper)) {
            space.mark(&mark, &mut handles);
        }
        if index == 0 {
            papers = space.codes.out;
        } else {
            block.inside = space.codes.out;
        }
        layouts.push(Layout {
            name: format!("Sheet {}", index + 1),
            handle: block.layout,
            record: block.record,
            size: (sheet.width, sheet.height),
            window: Some(window),
        });
        blocks.push(block);
    }
    blocks.append(&mut model.blocks);
    whole(&model, &papers, &blocks, &layouts, handles)
}

/// Puts the sections together.
fn whole(
    model: &Model,
    papers: &str,
    blocks: &[Block],
    layouts: &[Layout],
    mut handles: Handles,
) -> Vec<u8> {
    let (low, high) = model.reach.unwrap_or((Point::new(0.0, 0.0), Point::new(100.0, 100.0)));
    let (width, height) = (high.x - low.x, high.y - low.y);
    let look = (
        f64::midpoint(low.x, high.x),
        f64::midpoint(low.y, high.y),
        (height.max(width / 1.6) * 1.1).max(1.0),
    );
    let mut body = Codes::default();
    tables::tables(&mut body, blocks, look, model.unit, &mut handles);
    body.text(0, "SECTION").text(2, "BLOCKS");
    for block in blocks {
        body.text(0, "BLOCK").handle(5, block.ends.0).handle(330, block.record);
        body.class("AcDbEntity").text(8, "0").class("AcDbBlockBegin").text(2, &block.name);
        body.whole(70, i64::from(!block.paper))
            .point(10, 0.0, 0.0)
            .text(3, &block.name)
            .text(1, "");
        body.out.push_str(&block.inside);
        body.text(0, "ENDBLK").handle(5, block.ends.1).handle(330, block.record);
        body.class("AcDbEntity").text(8, "0").class("AcDbBlockEnd");
    }
    body.text(0, "ENDSEC").text(0, "SECTION").text(2, "ENTITIES");
    body.out.push_str(&model.space.codes.out);
    body.out.push_str(papers);
    body.text(0, "ENDSEC");
    tables::objects(&mut body, layouts);

    let mut head = Codes::default();
    head.text(0, "SECTION").text(2, "HEADER");
    head.text(9, "$ACADVER").text(1, "AC1024").text(9, "$DWGCODEPAGE").text(3, "ANSI_1252");
    head.text(9, "$HANDSEED").handle(5, handles.next());
    head.text(9, "$INSUNITS").whole(70, 6).text(9, "$MEASUREMENT").whole(70, 1);
    head.text(9, "$LUNITS").whole(70, 2).text(9, "$LUPREC").whole(70, 3);
    head.text(9, "$LTSCALE").real(40, 1.0).text(9, "$PSLTSCALE").whole(70, 1);
    head.text(9, "$EXTMIN").point(10, low.x, low.y).text(9, "$EXTMAX").point(10, high.x, high.y);
    head.text(9, "$TEXTSTYLE").text(7, tables::STYLE).text(9, "$CLAYER").text(8, "0");
    head.text(9, "$DIMSTYLE").text(2, tables::DIMENSION_STYLE);
    head.text(9, "$TILEMODE").whole(70, 1).text(0, "ENDSEC");
    head.text(0, "SECTION").text(2, "CLASSES").text(0, "ENDSEC");
    head.out.push_str(&body.out);
    head.out.into_bytes()
}

/// The model space while it is filled.
struct Model {
    space: Space,
    /// What was written already.
    seen: HashSet<String>,
    /// Blocks of dimensions.
    blocks: Vec<Block>,
    /// Lower left and upper right of everything.
    reach: Option<(Point, Point)>,
    /// Metres to a mm of paper in the first view.
    unit: f64,
}

impl Model {
    fn new(owner: u64) -> Self {
        let space = Space::new(owner, false);
        Self { space, seen: HashSet::new(), blocks: Vec::new(), reach: None, unit: 1.0 }
    }

    fn view(&mut self, view: &View, handles: &mut Handles) {
        let onto = Onto::Model(view);
        if self.seen.is_empty() {
            self.unit = onto.unit();
        }
        (self.space.unit, self.space.level) = (onto.unit(), onto.level());
        for mark in &view.marks {
            if !self.seen.insert(format!("{mark:?}")) {
                continue;
            }
            for part in flatten(mark, onto) {
                self.reach(&part);
                if !matches!(mark.shape, Shape::Dimension(_)) {
                    self.space.mark(&part, handles);
                }
            }
            if let Shape::Dimension(dimension) = &mark.shape {
                let parts = dimensioned(dimension, onto);
                let sound = [parts.end, parts.measured.0, parts.measured.1, parts.text.at];
                if !sound.iter().all(|p| p.x.is_finite() && p.y.is_finite()) {
                    continue;
                }
                let name = format!("*D{}", self.blocks.len() + 1);
                let mut block = Block::new(&name, false, handles);
                let mut inside = Space::new(block.record, false);
                for part in flatten(mark, onto) {
                    inside.mark(&part, handles);
                }
                block.inside = inside.codes.out;
                self.blocks.push(block);
                self.space.dimension(dimension, &parts, &name, handles);
            }
        }
    }

    fn reach(&mut self, mark: &Mark) {
        let mut points: Vec<Point> = match &mark.shape {
            Shape::Path { points, .. } => points.clone(),
            Shape::Area { rings, .. } => rings.concat(),
            Shape::Text(text) => vec![text.at],
            Shape::Circle { centre, radius } | Shape::Arc { centre, radius, .. } => vec![
                Point::new(centre.x - radius, centre.y - radius),
                Point::new(centre.x + radius, centre.y + radius),
            ],
            Shape::Dimension(_) | Shape::Symbol { .. } => Vec::new(),
        };
        if let Shape::Arc { centre, radius, from, to } = &mark.shape {
            points = super::flat::bend(*centre, *radius, *from, *to);
        }
        for p in points.into_iter().filter(|p| p.x.is_finite() && p.y.is_finite()) {
            let (low, high) = self.reach.unwrap_or((p, p));
            self.reach = Some((
                Point::new(low.x.min(p.x), low.y.min(p.y)),
                Point::new(high.x.max(p.x), high.y.max(p.y)),
            ));
        }
    }

    /// Says below the model what differs from the sheets.
    fn note(&mut self, views: &[&View], handles: &mut Handles) {
        let Some(uneven) = views.iter().find(|v| !v.even()) else { return };
        let Some((low, _)) = self.reach else { return };
        let words = format!(
            "Model in real coordinates: metres, one to one. The sheets show it at {}.",
            super::scale::scale_words(uneven.scale_across, uneven.scale_up)
        );
        let height = 2.5 * self.unit;
        let at = Point::new(low.x, low.y - 4.0 * height);
        let note = Mark::text(Layer::Text, at, words, height, Anchor::Left);
        self.reach(&note);
        self.space.mark(&note, handles);
    }
}
