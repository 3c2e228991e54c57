//! Tables: line types, layers, styles, records of blocks; and the layouts among the objects.

use super::codes::{Codes, Handles, table_name};
use crate::font;
use crate::scene::Layer;

/// Style of words.
pub(super) const STYLE: &str = "Drawing";
/// Style of headings.
pub(super) const BOLD_STYLE: &str = "Drawing heading";
/// Style of dimensions.
pub(super) const DIMENSION_STYLE: &str = "Drawing";
/// Layer of areas in the colour of paper that hide what lies below.
pub(super) const MASKS: &str = "Masks";
/// Layer of the frames of viewports; not plotted.
pub(super) const VIEWPORTS: &str = "Viewports";

/// Fixed handles of tables and dictionaries.
pub(super) mod fixed {
    pub(crate) const LAYER: u64 = 0x1;
    pub(crate) const LTYPE: u64 = 0x2;
    pub(crate) const APPID: u64 = 0x3;
    pub(crate) const DIMSTYLE: u64 = 0x4;
    pub(crate) const STYLE: u64 = 0x5;
    pub(crate) const UCS: u64 = 0x6;
    pub(crate) const VIEW: u64 = 0x7;
    pub(crate) const VPORT: u64 = 0x8;
    pub(crate) const BLOCK_RECORD: u64 = 0x9;
    pub(crate) const ROOT: u64 = 0xA;
    pub(crate) const GROUPS: u64 = 0xB;
    pub(crate) const LAYOUTS: u64 = 0xC;
    pub(crate) const MULTILINES: u64 = 0xD;
    pub(crate) const MULTILINE: u64 = 0xE;
    pub(crate) const PLOT_SETTINGS: u64 = 0xF;
    pub(crate) const PLOT_STYLES: u64 = 0x10;
    pub(crate) const PLOT_STYLE: u64 = 0x11;
    pub(crate) const WORDS: u64 = 0x12;
    /// Handles up to here are fixed.
    pub(crate) const LAST: u64 = 0x40;
}

/// A block with its layout, where it has one.
pub(super) struct Block {
    pub(super) name: String,
    pub(super) record: u64,
    /// Handles of beginning and end.
    pub(super) ends: (u64, u64),
    /// Handle of the layout; 0 for none.
    pub(super) layout: u64,
    /// Entities that are written inside.
    pub(super) inside: String,
    pub(super) paper: bool,
}

impl Block {
    pub(super) fn new(name: &str, paper: bool, handles: &mut Handles) -> Self {
        Self {
            name: name.to_owned(),
            record: handles.next(),
            ends: (handles.next(), handles.next()),
            layout: 0,
            inside: String::new(),
            paper,
        }
    }
}

fn table(codes: &mut Codes, name: &str, handle: u64, count: usize) {
    codes.text(0, "TABLE").text(2, name).handle(5, handle).handle(330, 0);
    codes.class("AcDbSymbolTable").whole(70, i64::try_from(count).unwrap_or(0));
    if name == "DIMSTYLE" {
        codes.class("AcDbDimStyleTable");
    }
}

fn record(codes: &mut Codes, kind: &str, owner: u64, handle: u64) {
    codes.text(0, kind).handle(if kind == "DIMSTYLE" { 105 } else { 5 }, handle).handle(330, owner);
    codes.class("AcDbSymbolTableRecord");
}

/// All tables. `look` is middle and height of what the window shows first, `unit` metres to a mm of paper in the model.
pub(super) fn tables(
    codes: &mut Codes,
    blocks: &[Block],
    look: (f64, f64, f64),
    unit: f64,
    handles: &mut Handles,
) {
    codes.text(0, "SECTION").text(2, "TABLES");
    window(codes, look, handles);
    line_types(codes, handles);
    layers(codes, handles);
    text_styles(codes, handles);
    for (name, handle) in [("VIEW", fixed::VIEW), ("UCS", fixed::UCS)] {
        table(codes, name, handle, 0);
        codes.text(0, "ENDTAB");
    }
    table(codes, "APPID", fixed::APPID, 1);
    record(codes, "APPID", fixed::APPID, handles.next());
    codes.class("AcDbRegAppTableRecord").text(2, "ACAD").whole(70, 0).text(0, "ENDTAB");
    dimension_styles(codes, unit, handles);
    table(codes, "BLOCK_RECORD", fixed::BLOCK_RECORD, blocks.len());
    for block in blocks {
        record(codes, "BLOCK_RECORD", fixed::BLOCK_RECORD, block.record);
        codes.class("AcDbBlockTableRecord").text(2, &block.name).handle(340, block.layout);
        codes.whole(70, if block.paper { 0 } else { 6 }).whole(280, 1).whole(281, 0);
    }
    codes.text(0, "ENDTAB").text(0, "ENDSEC");
}

fn window(codes: &mut Codes, (x, y, height): (f64, f64, f64), handles: &mut Handles) {
    table(codes, "VPORT", fixed::VPORT, 1);
    record(codes, "VPORT", fixed::VPORT, handles.next());
    codes.class("AcDbViewportTableRecord").text(2, "*Active").whole(70, 0);
    codes.flat(10, 0.0, 0.0).flat(11, 1.0, 1.0).flat(12, x, y).flat(13, 0.0, 0.0);
    codes.flat(14, 1.0, 1.0).flat(15, 1.0, 1.0).real(16, 0.0).real(26, 0.0).real(36, 1.0);
    codes.point(17, 0.0, 0.0).real(40, height).real(41, 1.6).real(42, 50.0).real(43, 0.0);
    codes.real(44, 0.0).real(50, 0.0).real(51, 0.0).whole(71, 0).whole(72, 1000).whole(73, 1);
    codes
        .whole(74, 3)
        .whole(75, 0)
        .whole(76, 0)
        .whole(77, 0)
        .whole(78, 0)
        .whole(281, 0)
        .whole(65, 0);
    codes.text(0, "ENDTAB");
}

fn line_type_of(layer: Layer) -> String {
    if layer.look().dashes.is_empty() {
        "Continuous".to_owned()
    } else {
        format!("{} line", layer.name())
    }
}

fn line_types(codes: &mut Codes, handles: &mut Handles) {
    let dashed: Vec<Layer> =
        Layer::ALL.into_iter().filter(|l| !l.look().dashes.is_empty()).collect();
    table(codes, "LTYPE", fixed::LTYPE, dashed.len() + 3);
    let plain: [(&str, &[f64]); 3] = [("ByBlock", &[]), ("ByLayer", &[]), ("Continuous", &[])];
    let own: Vec<(String, &[f64])> =
        dashed.iter().map(|l| (line_type_of(*l), l.look().dashes)).collect();
    let all = plain.into_iter().chain(own.iter().map(|(name, dashes)| (name.as_str(), *dashes)));
    for (name, dashes) in all {
        record(codes, "LTYPE", fixed::LTYPE, handles.next());
        codes.class("AcDbLinetypeTableRecord").text(2, name).whole(70, 0).text(3, "").whole(72, 65);
        codes.whole(73, i64::try_from(dashes.len()).unwrap_or(0)).real(40, dashes.iter().sum());
        for (index, dash) in dashes.iter().enumerate() {
            codes.real(49, if index % 2 == 0 { *dash } else { -dash }).whole(74, 0);
        }
    }
    codes.text(0, "ENDTAB");
}

fn layers(codes: &mut Codes, handles: &mut Handles) {
    table(codes, "LAYER", fixed::LAYER, Layer::ALL.len() + 3);
    let mut layer = |name: &str, index: u8, line: &str, width: f64, plotted: bool| {
        record(codes, "LAYER", fixed::LAYER, handles.next());
        codes.class("AcDbLayerTableRecord").text(2, name).whole(70, 0).whole(62, i64::from(index));
        if name == MASKS {
            // White whatever the background is.
            codes.whole(420, 0xFF_FFFF);
        }
        codes.text(6, line);
        if !plotted {
            codes.whole(290, 0);
        }
        // Hundredths of a mm.
        #[expect(clippy::cast_possible_truncation, reason = "widths are below 1 mm")]
        codes.whole(370, (width * 100.0).round() as i64).handle(390, fixed::PLOT_STYLE);
    };
    layer("0", 7, "Continuous", 0.25, true);
    layer(MASKS, 255, "Continuous", 0.0, true);
    layer(VIEWPORTS, 8, "Continuous", 0.0, false);
    for one in Layer::ALL {
        let look = one.look();
        layer(&table_name(one.name()), look.index, &line_type_of(one), look.width, true);
    }
    codes.text(0, "ENDTAB");
}

fn text_styles(codes: &mut Codes, handles: &mut Handles) {
    table(codes, "STYLE", fixed::STYLE, 3);
    let styles = [
        ("Standard", "SourceSans3-Regular.ttf", handles.next()),
        (STYLE, "SourceSans3-Regular.ttf", fixed::WORDS),
        (BOLD_STYLE, "SourceSans3-SemiBold.ttf", handles.next()),
    ];
    for (name, file, handle) in styles {
        record(codes, "STYLE", fixed::STYLE, handle);
        codes.class("AcDbTextStyleTableRecord").text(2, name).whole(70, 0).real(40, 0.0);
        codes.real(41, 1.0).real(50, 0.0).whole(71, 0).real(42, 2.5).text(3, file).text(4, "");
        codes.text(1001, "ACAD").text(1000, font::FAMILY).whole(1071, 0);
    }
    codes.text(0, "ENDTAB");
}

fn dimension_styles(codes: &mut Codes, unit: f64, handles: &mut Handles) {
    table(codes, "DIMSTYLE", fixed::DIMSTYLE, 2);
    for (name, scale) in [("Standard", 1.0), (DIMENSION_STYLE, unit)] {
        record(codes, "DIMSTYLE", fixed::DIMSTYLE, handles.next());
        codes.class("AcDbDimStyleTableRecord").text(2, name).whole(70, 0);
        // Scale of sizes, arrow, gap and overshoot of extension lines; height and gap of words; above the line, with it.
        codes.real(40, scale).real(41, 2.0).real(42, 0.8).real(44, 1.2).real(140, 1.8);
        codes.real(147, 0.8).whole(73, 0).whole(74, 0).whole(77, 1).whole(271, 2).whole(277, 2);
        codes.handle(340, fixed::WORDS);
    }
    codes.text(0, "ENDTAB");
}

/// A layout: its name, place in the row of tabs, size and the window that was active last.
pub(super) struct Layout {
    pub(super) name: String,
    pub(super) handle: u64,
    pub(super) record: u64,
    pub(super) size: (f64, f64),
    pub(super) window: Option<u64>,
}

fn dictionary(codes: &mut Codes, handle: u64, owner: u64, entries: &[(&str, u64)]) {
    codes.text(0, "DICTIONARY").handle(5, handle).handle(330, owner).class("AcDbDictionary");
    codes.whole(281, 1);
    for (name, entry) in entries {
        codes.text(3, name).handle(350, *entry);
    }
}

/// Dictionaries and layouts; the first layout is the model.
pub(super) fn objects(codes: &mut Codes, layouts: &[Layout]) {
    codes.text(0, "SECTION").text(2, "OBJECTS");
    let root = [
        ("ACAD_GROUP", fixed::GROUPS),
        ("ACAD_LAYOUT", fixed::LAYOUTS),
        ("ACAD_MLINESTYLE", fixed::MULTILINES),
        ("ACAD_PLOTSETTINGS", fixed::PLOT_SETTINGS),
        ("ACAD_PLOTSTYLENAME", fixed::PLOT_STYLES),
    ];
    dictionary(codes, fixed::ROOT, 0, &root);
    dictionary(codes, fixed::GROUPS, fixed::ROOT, &[]);
    let entries: Vec<(&str, u64)> = layouts.iter().map(|l| (l.name.as_str(), l.handle)).collect();
    dictionary(codes, fixed::LAYOUTS, fixed::ROOT, &entries);
    dictionary(codes, fixed::MULTILINES, fixed::ROOT, &[("Standard", fixed::MULTILINE)]);
    codes.text(0, "MLINESTYLE").handle(5, fixed::MULTILINE).handle(330, fixed::MULTILINES);
    codes.class("AcDbMlineStyle").text(2, "Standard").whole(70, 0).text(3, "").whole(62, 256);
    codes.real(51, 90.0).real(52, 90.0).whole(71, 2);
    for offset in [0.5, -0.5] {
        codes.real(49, offset).whole(62, 256).text(6, "BYLAYER");
    }
    dictionary(codes, fixed::PLOT_SETTINGS, fixed::ROOT, &[]);
    codes.text(0, "ACDBDICTIONARYWDFLT").handle(5, fixed::PLOT_STYLES).handle(330, fixed::ROOT);
    codes.class("AcDbDictionary").whole(281, 1).text(3, "Normal").handle(350, fixed::PLOT_STYLE);
    codes.class("AcDbDictionaryWithDefault").handle(340, fixed::PLOT_STYLE);
    codes.text(0, "ACDBPLACEHOLDER").handle(5, fixed::PLOT_STYLE).handle(330, fixed::PLOT_STYLES);
    for (index, layout) in layouts.iter().enumerate() {
        layout_of(codes, layout, index);
    }
    codes.text(0, "ENDSEC").text(0, "EOF");
}

fn layout_of(codes: &mut Codes, layout: &Layout, index: usize) {
    let (width, height) = layout.size;
    codes.text(0, "LAYOUT").handle(5, layout.handle).handle(330, fixed::LAYOUTS);
    codes.class("AcDbPlotSettings").text(1, "").text(2, "").text(4, "").text(6, "");
    for code in 40..=43 {
        codes.real(code, 0.0);
    }
    codes.real(44, width).real(45, height);
    for code in [46, 47, 48, 49, 140, 141] {
        codes.real(code, 0.0);
    }
    codes.real(142, 1.0).real(143, 1.0).whole(70, if index == 0 { 1024 } else { 0 });
    // Millimetres, not turned, the whole layout, one to one.
    codes
        .whole(72, 1)
        .whole(73, 0)
        .whole(74, 5)
        .text(7, "")
        .whole(75, 16)
        .whole(76, 0)
        .whole(77, 2);
    codes.whole(78, 300).real(147, 1.0).real(148, 0.0).real(149, 0.0);
    codes.class("AcDbLayout").text(1, &layout.name).whole(70, 1);
    codes.whole(71, i64::try_from(index).unwrap_or(0)).flat(10, 0.0, 0.0).flat(11, width, height);
    codes.point(12, 0.0, 0.0).point(14, 0.0, 0.0).point(15, width, height).real(146, 0.0);
    codes.point(13, 0.0, 0.0).real(16, 1.0).real(26, 0.0).real(36, 0.0);
    codes.real(17, 0.0).real(27, 1.0).real(37, 0.0).whole(76, 0).handle(330, layout.record);
    if let Some(window) = layout.window {
        codes.handle(331, window);
    }
}
