//! Drawings as others read them: SVG through an XML reader, DXF through a library of another language.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on may stop where it stands")]

use std::path::Path;
use std::process::Command;

use project::Design;
use quantity::System;
use quick_xml::Reader;
use quick_xml::events::Event;
use serde_json::Value;
use sheets::scene::dxf::dxf;
use sheets::scene::frame::{CAUTION, Paper, framed};
use sheets::scene::legend::legend;
use sheets::scene::scale::{scale_bar, scale_words};
use sheets::scene::svg::{SvgOptions, svg, svg_with};
use sheets::scene::text::width_mm;
use sheets::scene::{
    Anchor, DimensionKind, Drawing, Layer, Mark, Pattern, Point, Rectangle, Shape, Sheet,
    SymbolKind, View,
};
use sheets::{Issue, Subject};

fn design(file: &str, name: Option<&str>) -> Design {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo").join(file);
    let source = std::fs::read_to_string(path).unwrap();
    let mut design = project::read_design(file, &source, &project::no_files).unwrap().design;
    if let (Some(name), Design::Crossing(project)) = (name, &mut design) {
        name.clone_into(&mut project.name);
    }
    design
}

fn point(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

/// Marks of a made-up section of 300 m, as drawing code would make them.
fn section(view: &mut View) {
    let strata = [
        (Pattern::Fill, 4.0, 3.0),
        (Pattern::SoftClay, 3.0, 0.0),
        (Pattern::Peat, 0.0, -2.0),
        (Pattern::Silt, -2.0, -4.0),
        (Pattern::Sand, -4.0, -8.0),
        (Pattern::Gravel, -8.0, -11.0),
        (Pattern::StiffClay, -11.0, -15.0),
        (Pattern::Rock, -15.0, -18.0),
    ];
    for (pattern, top, bottom) in strata {
        let ring =
            vec![point(0.0, bottom), point(300.0, bottom), point(300.0, top), point(0.0, top)];
        view.marks.push(Mark::area(Layer::Strata, ring, pattern));
        view.marks.push(Mark::line(Layer::Strata, point(0.0, bottom), point(300.0, bottom)));
    }
    let river = vec![point(104.0, 3.0), point(112.0, -1.5), point(132.0, -1.5), point(140.0, 3.0)];
    view.marks.push(Mark::area(Layer::Water, river, Pattern::Water));
    view.marks.push(Mark::path(
        Layer::Ground,
        vec![
            point(0.0, 4.0),
            point(104.0, 4.0),
            point(112.0, -1.5),
            point(132.0, -1.5),
            point(140.0, 4.0),
            point(300.0, 4.0),
        ],
    ));
    view.marks.push(Mark::line(Layer::Water, point(104.0, 3.0), point(140.0, 3.0)));
    view.marks.push(Mark::symbol(Layer::Water, point(122.0, 3.0), SymbolKind::WaterLevel, 3.0));
    // Straight, arc, straight; 60 m of radius would be steep, but it must be seen.
    view.marks.push(Mark::line(Layer::Axis, point(0.0, 4.0), point(60.0, -10.0)));
    view.marks.push(Mark::arc(Layer::Axis, point(150.0, 371.0), 391.0, 4.478, 4.946));
    view.marks.push(Mark::line(Layer::Bore, point(60.0, -9.5), point(240.0, -9.5)));
    view.marks.push(Mark::line(Layer::Pipe, point(60.0, -10.5), point(240.0, -10.5)));
    view.marks.push(Mark::line(Layer::Clearance, point(104.0, -5.0), point(140.0, -5.0)));
    view.marks.push(Mark::line(Layer::Host, point(200.0, 1.0), point(290.0, 1.0)));
    view.marks.push(Mark::circle(Layer::Obstacle, point(246.0, 2.0), 1.0));
    for (x, kind) in [
        (0.0, SymbolKind::End),
        (60.0, SymbolKind::Tangent),
        (90.0, SymbolKind::Boring),
        (180.0, SymbolKind::Joint),
        (220.0, SymbolKind::NotMet),
    ] {
        view.marks.push(Mark::symbol(
            Layer::Site,
            point(x, if x > 150.0 { -10.5 } else { 4.0 }),
            kind,
            4.0,
        ));
    }
    view.marks.push(Mark::dimension(
        DimensionKind::Across,
        point(0.0, 4.0),
        point(300.0, 4.0),
        12.0,
        "300.0 m",
    ));
    view.marks.push(Mark::dimension(
        DimensionKind::Up,
        point(122.0, -1.5),
        point(122.0, -9.5),
        6.0,
        "8.0 m",
    ));
    view.marks.push(Mark::dimension(
        DimensionKind::Aligned,
        point(0.0, 4.0),
        point(60.0, -10.0),
        -6.0,
        "61.6 m {at} <> 23 %",
    ));
    view.marks.push(
        Mark::text(
            Layer::Text,
            point(30.0, -14.0),
            "Ground as “assumed” %%d ^J <clay>",
            2.5,
            Anchor::Middle,
        )
        .on_patch(),
    );
    view.marks.push(
        Mark::text(Layer::Text, point(260.0, -6.0), "Heading", 3.5, Anchor::TopCentre).bold(),
    );
    view.marks
        .push(Mark::text(Layer::Text, point(20.0, 1.0), "sloping", 1.8, Anchor::Left).turned(-0.3));
}

/// Two sheets of one world; the second also shows a plan.
fn drawing(subject: &Subject<'_>, up: f64) -> Drawing {
    let sheet = |number: usize| -> Sheet {
        let words = scale_words(1000.0, up);
        let (mut sheet, free) = framed(subject, "Long section", (number, 2), Paper::A3, &words);
        let (upper, lower) = free.cut_top(free.height * 0.7);
        let mut view = View::new("long section", upper.inset(4.0), point(-30.0, -25.0), 1000.0);
        view.scale_up = up;
        section(&mut view);
        sheet.views.push(view);
        let (legends, rest) = lower.cut_left(lower.width / 2.0);
        let (marks, _) = legend(&sheet.views, &[], legends);
        sheet.marks.extend(marks);
        sheet.marks.extend(scale_bar(rest.corner, 1000.0, 80.0, subject.system).0);
        if number == 2 {
            let mut plan =
                View::new("plan", rest.inset(12.0), point(480_000.0, 5_700_000.0), 2500.0);
            plan.turn = 0.4;
            plan.marks.push(Mark::line(
                Layer::Axis,
                point(480_010.0, 5_700_010.0),
                point(480_900.0, 5_700_100.0),
            ));
            plan.marks.push(
                Mark::symbol(Layer::Text, point(480_100.0, 5_700_010.0), SymbolKind::North, 12.0)
                    .turned(0.4),
            );
            sheet.marks.push(Mark::rectangle(Layer::Frame, plan.frame));
            sheet.views.push(plan);
        }
        sheet
    };
    Drawing {
        id: "long-section".into(),
        title: "Long section".into(),
        sheets: vec![sheet(1), sheet(2)],
    }
}

fn issue() -> Issue {
    Issue {
        date: "2026-05-31".parse().ok(),
        revision: Some("B".into()),
        author: Some("An engineer".into()),
    }
}

/// All words of an SVG; fails where it is no well-formed XML or has what it must not have.
fn words_of(svg: &str) -> String {
    let mut reader = Reader::from_str(svg);
    let mut words = String::new();
    loop {
        match reader.read_event().unwrap_or_else(|e| panic!("{e}")) {
            Event::Eof => return words,
            Event::Start(tag) | Event::Empty(tag) => {
                let name = tag.name().as_ref().to_owned();
                let known = [
                    "svg", "title", "desc", "defs", "pattern", "clipPath", "g", "rect", "path",
                    "circle", "text", "style",
                ];
                assert!(known.contains(&name.as_str()), "{name}");
                for attribute in tag.attributes() {
                    let attribute = attribute.unwrap();
                    let key = attribute.key.as_ref().to_owned();
                    assert!(!key.starts_with("on") && !key.ends_with("href"), "{key}");
                    let value = attribute.value.to_string();
                    assert!(!value.contains("NaN") && !value.contains("inf"), "{key}={value}");
                }
            }
            Event::Text(text) => words.push_str(&text),
            Event::GeneralRef(entity) => words.push_str(match &*entity {
                "amp" => "&",
                "lt" => "<",
                "gt" => ">",
                "quot" => "\"",
                "#39" => "'",
                other => panic!("&{other};"),
            }),
            Event::End(_) => {}
            other => panic!("{other:?}"),
        }
    }
}

/// Reads a DXF by the other library; it must find nothing to complain about and nothing to mend.
fn audited(bytes: &[u8], folder: &Path, draw: bool) -> Value {
    let file = folder.join("drawing.dxf");
    std::fs::write(&file, bytes).unwrap();
    let python = std::env::var("UNDERHAUL_PYTHON").unwrap_or_else(|_| "python3".to_owned());
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/dxf_audit.py");
    let mut command = Command::new(&python);
    command.arg(script).arg(&file);
    if draw {
        command.arg(folder);
    }
    let output = command.output().unwrap_or_else(|e| {
        panic!("{python} does not start ({e}): install Python, or name one in UNDERHAUL_PYTHON")
    });
    let complaint = String::from_utf8_lossy(&output.stderr);
    assert!(
        output.status.success(),
        "{python} cannot audit; it needs the packages ezdxf and matplotlib:\n{complaint}"
    );
    let found: Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(found["errors"], Value::Array(Vec::new()));
    assert_eq!(found["fixes"], Value::Array(Vec::new()));
    found
}

fn near(value: &Value, expected: f64) {
    let value = value.as_f64().unwrap();
    assert!((value - expected).abs() < 0.02, "{value} is not {expected}");
}

fn strings(value: &Value) -> Vec<&str> {
    value.as_array().unwrap().iter().map(|v| v.as_str().unwrap()).collect()
}

#[test]
fn svg_is_sound_and_says_what_it_shows() {
    let design = design("creek.toml", None);
    let subject = Subject::new(&design, "creek.toml", issue(), System::Metric);
    let drawing = drawing(&subject, 250.0);
    let text = svg(&drawing.sheets[0]);
    if let Ok(folder) = std::env::var("UNDERHAUL_PICTURES") {
        std::fs::write(Path::new(&folder).join("sheet.svg"), &text).unwrap();
    }
    let words = words_of(&text);
    for expected in [
        "Tidal creek",
        "Invented for practice",
        "Long section",
        "1:1000 across, 1:250 up on A3",
        "1 of 2",
        "2026-05-31",
        "An engineer",
        CAUTION,
        "underhaul ",
        "300.0 m",
        "Heading",
        "Stiff fine soil",
    ] {
        assert!(words.contains(expected), "{expected}: {words}");
    }
    assert!(text.starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"420mm\" height=\"297mm\" viewBox=\"0 0 420 297\""));
    for part in [
        "class=\"layer bore-axis\"",
        "id=\"sand\"",
        "clip-path=\"url(#view-1)\"",
        "stroke-dasharray=\"7 1.3 0.8 1.3\"",
    ] {
        assert!(text.contains(part), "{part}");
    }
    assert!(text.contains("font-family=\"'Source Sans 3', sans-serif\""));
    assert!(!text.contains("@font-face"));
    assert_eq!(text, svg(&drawing.sheets[0]));
    let own = svg_with(&drawing.sheets[0], SvgOptions { embed_font: true, prefix: "a-" });
    words_of(&own);
    assert!(own.contains("data:font/ttf;base64,AAEAAAA") && own.contains("url(#a-sand)"));
}

#[test]
fn dxf_of_an_exaggerated_section_holds_the_real_world() {
    let design = design("creek.toml", None);
    let subject = Subject::new(&design, "creek.toml", issue(), System::Metric);
    let drawing = drawing(&subject, 250.0);
    let folder = tempfile::tempdir().unwrap();
    let bytes = dxf(&drawing);
    assert_eq!(bytes, dxf(&drawing));
    let found = audited(&bytes, folder.path(), true);
    if let Ok(pictures) = std::env::var("UNDERHAUL_PICTURES") {
        for name in ["model.png", "sheet-1.png", "sheet-2.png", "drawing.dxf"] {
            std::fs::copy(folder.path().join(name), Path::new(&pictures).join(name)).unwrap();
        }
    }
    assert_eq!(found["version"], "AC1024");
    assert_eq!(found["units"], 6);
    let layers = strings(&found["layers"]);
    for layer in Layer::ALL {
        assert!(layers.contains(&layer.name()), "{layer:?}");
    }
    assert_eq!(found["line_types"]["Bore axis"], "Bore axis line");
    let extents = &found["extents"];
    // The lowest point of the arc.
    near(&extents[0][1], 371.0 - 391.0);
    near(&extents[1][0], 300.0);
    // Each dimension once, though both sheets show it.
    let dimensions = found["dimensions"].as_array().unwrap();
    assert_eq!(dimensions.len(), 3);
    for (dimension, (words, measured)) in dimensions.iter().zip([
        ("300.0 m", 300.0),
        ("8.0 m", 8.0),
        ("61.6 m \\{at\\} < > 23 %", 61.612),
    ]) {
        assert_eq!(dimension["words"], words);
        near(&dimension["measured"], measured);
        assert!(dimension["block"].as_u64().unwrap() >= 4);
    }
    let hatches: Vec<(&str, u64)> = found["hatches"]
        .as_array()
        .unwrap()
        .iter()
        .map(|h| (h["name"].as_str().unwrap(), h["lines"].as_u64().unwrap()))
        .collect();
    let tile = Pattern::Gravel.tile().unwrap();
    let lines = (tile.strokes.len() + tile.dots.len()) as u64;
    assert_eq!(hatches.iter().filter(|h| **h == ("GRAVEL", lines)).count(), 1, "{hatches:?}");
    let texts = strings(&found["texts"]);
    assert!(
        texts
            .iter()
            .any(|t| t.contains("one to one. The sheets show it at 1:1000 across, 1:250 up.")),
        "{texts:?}"
    );
    let sheets = found["layouts"].as_object().unwrap();
    assert_eq!(sheets.keys().collect::<Vec<_>>(), ["Sheet 1", "Sheet 2"]);
    for sheet in sheets.values() {
        assert_eq!(sheet["paper"], serde_json::json!([420.0, 297.0]));
        assert_eq!(sheet["viewports"], serde_json::json!([]));
        let texts = strings(&sheet["texts"]);
        assert!(texts.contains(&"Tidal creek") && texts.contains(&"300.0 m"), "{texts:?}");
    }
    for name in ["model.png", "sheet-1.png", "sheet-2.png"] {
        assert!(std::fs::metadata(folder.path().join(name)).unwrap().len() > 20_000, "{name}");
    }
}

#[test]
fn dxf_of_even_scales_is_seen_through_viewports() {
    let design = design("street.toml", None);
    let subject = Subject::new(&design, "street.toml", Issue::default(), System::Customary);
    let drawing = drawing(&subject, 1000.0);
    let folder = tempfile::tempdir().unwrap();
    let draw = std::env::var("UNDERHAUL_PICTURES").ok();
    let found = audited(&dxf(&drawing), folder.path(), draw.is_some());
    if let Some(pictures) = draw {
        std::fs::copy(folder.path().join("sheet-2.png"), Path::new(&pictures).join("even.png"))
            .unwrap();
    }
    let frame = drawing.sheets[0].views[0].frame;
    for name in ["Sheet 1", "Sheet 2"] {
        let viewports = found["layouts"][name]["viewports"].as_array().unwrap();
        assert_eq!(viewports.len(), 1, "{name}");
        near(&viewports[0][0], frame.width);
        // 1:1000 on paper of mm, seen from a model of m.
        near(&viewports[0][2], frame.height);
    }
    assert!(strings(&found["texts"]).iter().all(|t| !t.contains("one to one")));
}

#[test]
fn a_turned_view_lies_in_its_viewport_as_on_paper() {
    let mut sheet = Sheet {
        title: "Plan".into(),
        width: 420.0,
        height: 297.0,
        views: Vec::new(),
        marks: Vec::new(),
        description: String::new(),
    };
    let mut view =
        View::new("plan", Rectangle::new(30.0, 50.0, 300.0, 200.0), point(-20.0, 35.0), 500.0);
    view.turn = 0.7;
    view.marks.push(Mark::line(Layer::Axis, point(0.0, 0.0), point(100.0, 100.0)));
    view.marks.push(Mark::area(
        Layer::Site,
        Rectangle::new(0.0, 40.0, 30.0, 20.0).corners(),
        Pattern::Rock,
    ));
    view.marks.push(Mark::dimension(
        DimensionKind::Across,
        point(0.0, 0.0),
        point(100.0, 0.0),
        10.0,
        "76 m",
    ));
    sheet.views.push(view);
    let drawing = Drawing { id: "plan".into(), title: "Plan".into(), sheets: vec![sheet] };
    let folder = tempfile::tempdir().unwrap();
    let found = audited(&dxf(&drawing), folder.path(), false);
    let view = &drawing.sheets[0].views[0];
    let places = &found["layouts"]["Sheet 1"]["places"][0];
    for (index, real) in
        [point(0.0, 0.0), point(100.0, 0.0), point(0.0, 100.0)].into_iter().enumerate()
    {
        let expected = view.on_paper(real);
        near(&places[index][0], expected.x);
        near(&places[index][1], expected.y);
    }
    // What runs level on paper is measured, not what runs along the x axis of the model.
    near(&found["dimensions"][0]["measured"], 100.0 * 0.7_f64.cos());
}

#[test]
fn hostile_words_break_neither_format_nor_title_block() {
    let names = [
        "\"quoted\" & <script>alert('1')</script> ]]>".to_owned(),
        "nul\u{0}bell\u{7}\r\n  0\nSECTION\n".to_owned(),
        "w".repeat(10_000),
        "مشروع عبور النهر ".repeat(30) + "\u{202e}txt.exe",
        "🚰🌊🛠\u{fe0f} crossing 👩‍🔧".repeat(40),
        "%%d^J\\P{\\fArial|b1;x} <>".to_owned(),
        " ".to_owned(),
    ];
    let folder = tempfile::tempdir().unwrap();
    for name in &names {
        let design = design("creek.toml", Some(name));
        for paper in Paper::ALL {
            let mut issue = issue();
            (issue.author, issue.revision) = (Some(name.clone()), Some(name.clone()));
            let subject = Subject::new(&design, name, issue, System::Customary);
            let (mut sheet, free) =
                framed(&subject, name, (12, 12), paper, &scale_words(12_500.0, 2_500.0));
            assert!(free.width > 100.0 && free.height > 100.0);
            within(&sheet, free);
            let text = svg(&sheet);
            let words = words_of(&text);
            assert!(!text.contains("<script") && words.contains(CAUTION));
            assert!(!words.contains(['\u{0}', '\u{7}', '\u{202e}']));
            if paper == Paper::A4 {
                if let (Some(place), Ok(pictures)) =
                    (names.iter().position(|n| n == name), std::env::var("UNDERHAUL_PICTURES"))
                {
                    std::fs::write(
                        Path::new(&pictures).join(format!("hostile-{place}.svg")),
                        &text,
                    )
                    .unwrap();
                }
                let mut view = View::new(name, free, point(0.0, 0.0), 100.0);
                view.marks.push(
                    Mark::text(Layer::Text, point(1.0, 1.0), name, 2.5, Anchor::Left).on_patch(),
                );
                view.marks.push(Mark::dimension(
                    DimensionKind::Across,
                    point(0.0, 0.0),
                    point(9.0, 0.0),
                    5.0,
                    name,
                ));
                view.marks.push(Mark::line(
                    Layer::Axis,
                    point(f64::NAN, 0.0),
                    point(f64::INFINITY, 1.0),
                ));
                sheet.views.push(view);
                words_of(&svg(&sheet));
                let drawing = Drawing { id: "x".into(), title: name.clone(), sheets: vec![sheet] };
                let found = audited(&dxf(&drawing), folder.path(), false);
                assert_eq!(found["kinds"]["DIMENSION"], 1);
                assert_eq!(found["kinds"].get("LINE"), None);
            }
        }
    }
}

/// No words of a sheet leave its border, reach into the free rectangle, or lie over others.
fn within(sheet: &Sheet, free: Rectangle) {
    let mut boxes: Vec<(f64, f64, f64, f64, &str)> = Vec::new();
    for mark in &sheet.marks {
        let Shape::Text(text) = &mark.shape else { continue };
        let width = width_mm(&text.words, text.height, text.bold);
        let left = match text.anchor {
            Anchor::TopLeft | Anchor::MiddleLeft => text.at.x,
            Anchor::MiddleRight => text.at.x - width,
            other => panic!("{other:?}"),
        };
        let top =
            if text.anchor == Anchor::TopLeft { text.at.y } else { text.at.y + text.height / 2.0 };
        assert!(left >= 20.0 && left + width <= sheet.width - 10.0, "{}", text.words);
        assert!(top <= free.bottom() && top - text.height >= 10.0, "{}", text.words);
        boxes.push((left, left + width, top - text.height, top, &text.words));
    }
    for (index, a) in boxes.iter().enumerate() {
        for b in &boxes[..index] {
            let apart = a.1 <= b.0 || b.1 <= a.0 || a.3 <= b.2 || b.3 <= a.2;
            assert!(apart, "\"{}\" lies over \"{}\"", a.4, b.4);
        }
    }
}
