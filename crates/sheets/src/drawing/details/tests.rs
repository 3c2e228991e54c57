//! Layout and sizes of the detail drawings.

use std::f64::consts::FRAC_PI_2;

use project::Design;
use quantity::System;

use super::kit::{box_of, words_box};
use super::street::{clear_of_expander, first_meeting, pages};
use super::{cross_section, renewal_plan, renewal_section, site_layout};
use crate::scene::{
    Anchor, Dimension, DimensionKind, Drawing, Layer, Mark, Point, Rectangle, Shape, Sheet, Text,
};
use crate::{Issue, Subject};

const CREEK: &str = include_str!("../../../../../demo/creek.toml");
const STREET: &str = include_str!("../../../../../demo/street.toml");
const LANE: &str = include_str!("../../../../../demo/lane-asbestos.toml");

fn design(text: &str) -> Design {
    project::read_design("design.toml", text, &project::no_files).expect("a valid design").design
}

fn subject(design: &Design, system: System) -> Subject<'_> {
    Subject::new(design, "design.toml", Issue::default(), system)
}

fn all(subject: &Subject<'_>) -> Vec<Drawing> {
    let mut list = vec![cross_section(subject), site_layout(subject)];
    list.extend(renewal_section(subject));
    list.extend(renewal_plan(subject));
    list
}

/// Takes the blocks of a repeated section out of a file, and what one section says.
fn without(text: &str, headers: &[&str]) -> String {
    let mut out = String::new();
    let mut drop = false;
    for line in text.lines() {
        if line.starts_with('[') {
            drop = headers.contains(&line);
        }
        if !drop {
            out.push_str(line);
            out.push('\n');
        }
    }
    out
}

/// A short run of which hardly anything is known.
fn bare() -> String {
    let repeated =
        ["[[host.service]]", "[[host.bend]]", "[[host.feature]]", "[[site.neighbour]]", "[pit]"];
    let mut text = without(STREET, &repeated)
        .replace("[[0, 31.4], [55, 31.2], [118, 30.8]]", "[[0, 31.4], [12, 31.2]]")
        .replace("[[0, 29.2], [118, 29.1]]", "[[0, 29.2], [12, 29.1]]")
        .replace("118 m", "12 m");
    for key in ["socket_diameter", "trench_width", "groundwater_level", "allowable_angle"] {
        text = text.lines().filter(|l| !l.starts_with(key)).collect::<Vec<_>>().join("\n");
    }
    text
}

/// A long main with many services and names that never end.
fn long() -> String {
    let mut text = without(STREET, &["[[host.service]]", "[[run]]"])
        .replace("[[0, 31.4], [55, 31.2], [118, 30.8]]", "[[0, 31.4], [600, 35.2], [1500, 28.8]]")
        .replace("[[0, 29.2], [118, 29.1]]", "[[0, 29.2], [600, 33.1], [1500, 26.9]]")
        .replace("118 m", "1500 m")
        .replace("name = \"gas main\"", &format!("name = \"{}\"", "gas main 🚰 of <b> ".repeat(9)));
    for k in 0..190 {
        text.push_str(&format!(
            "\n[[host.service]]\nat = \"{} m\"\nname = \"{}\"\n",
            4 + 7 * k,
            "w".repeat(120)
        ));
    }
    for k in 0..10 {
        let (a, b) = (k * 150, k * 150 + 150);
        let (launch, machine) = if k % 2 == 0 { (b, a) } else { (a, b) };
        text.push_str(&format!(
            "\n[[run]]\nname = \"R{k}\"\nlaunch = \"{launch} m\"\nmachine = \"{machine} m\"\n"
        ));
    }
    text
}

/// A drilled crossing of which hardly anything is known, 1500 m long.
fn far() -> String {
    let text =
        CREEK.replace("run = \"290 m\"", "run = \"1500 m\"").replace("[300, 3.6]", "[1600, 3.6]");
    let mut text = text.replace("name = \"creek\"", &format!("name = \"{}\"", "creek ".repeat(12)));
    for key in ["socket_diameter", "pilot_diameter"] {
        text = text.lines().filter(|l| !l.starts_with(key)).collect::<Vec<_>>().join("\n");
    }
    text
}

fn turned(r: Rectangle, about: Point) -> Rectangle {
    // A quarter anticlockwise: (x, y) becomes (-y, x).
    let (x, y) = (r.left() - about.x, r.bottom() - about.y);
    Rectangle::new(about.x - y - r.height, about.y + x, r.height, r.width)
}

fn text_box(text: &Text, at: Point) -> Rectangle {
    let level = box_of(text, at);
    if text.turn.abs() < 1e-9 {
        level
    } else {
        assert!((text.turn - FRAC_PI_2).abs() < 1e-9, "words lie level or upright");
        turned(level, at)
    }
}

/// Where the words of a dimension stand, which has room for them between its ends; `None` otherwise.
fn dimension_box(d: &Dimension, on_paper: &dyn Fn(Point) -> Point) -> Option<Rectangle> {
    let (a, b) = (on_paper(d.from), on_paper(d.to));
    let wide = words_box(a, &d.words, d.height, Anchor::Left, false).width;
    match d.kind {
        DimensionKind::Across if (b.x - a.x).abs() > wide => {
            let at = Point::new(f64::midpoint(a.x, b.x), a.y + d.offset + 0.7);
            Some(words_box(at, &d.words, d.height, Anchor::Centre, false))
        }
        DimensionKind::Up if (b.y - a.y).abs() > wide => {
            let at = Point::new(a.x + d.offset - 0.7, f64::midpoint(a.y, b.y));
            Some(turned(words_box(at, &d.words, d.height, Anchor::Centre, false), at))
        }
        _ => None,
    }
}

/// Boxes of all words of a sheet.
fn boxes(sheet: &Sheet) -> Vec<(String, Rectangle)> {
    let mut list = Vec::new();
    let mut add = |mark: &Mark, on_paper: &dyn Fn(Point) -> Point| match &mark.shape {
        Shape::Text(t) => list.push((t.words.clone(), text_box(t, on_paper(t.at)))),
        Shape::Dimension(d) => {
            list.extend(dimension_box(d, on_paper).map(|b| (d.words.clone(), b)));
        }
        _ => {}
    };
    for view in &sheet.views {
        for mark in &view.marks {
            add(mark, &|p| view.on_paper(p));
        }
    }
    for mark in &sheet.marks {
        add(mark, &|p| p);
    }
    list
}

#[test]
fn no_words_touch_others_and_all_stand_inside_the_border() {
    let texts = [CREEK.to_owned(), STREET.to_owned(), LANE.to_owned(), bare(), long(), far()];
    for (i, text) in texts.iter().enumerate() {
        for system in [System::Metric, System::Customary] {
            let design = design(text);
            for drawing in all(&subject(&design, system)) {
                for (k, sheet) in drawing.sheets.iter().enumerate() {
                    let place = format!("text {i}, {}, sheet {}", drawing.id, k + 1);
                    let list = boxes(sheet);
                    assert!(list.len() > 10, "{place}");
                    let border =
                        Rectangle::new(20.0, 10.0, sheet.width - 30.0, sheet.height - 20.0);
                    for (words, b) in &list {
                        assert!(
                            b.left() >= border.left()
                                && b.right() <= border.right()
                                && b.bottom() >= border.bottom()
                                && b.top() <= border.top(),
                            "{place}: {words} at {b:?}"
                        );
                    }
                    let only: Vec<Rectangle> = list.iter().map(|l| l.1).collect();
                    if let Some((a, b)) = first_meeting(&only) {
                        panic!("{place}: {:?} touches {:?}", list[a], list[b]);
                    }
                    for view in &sheet.views {
                        let f = view.frame;
                        assert!(f.left() >= 20.0 && f.right() <= sheet.width - 10.0, "{place}");
                        assert!(f.bottom() >= 10.0 && f.top() <= sheet.height - 10.0, "{place}");
                    }
                }
            }
        }
    }
}

fn circles(drawing: &Drawing, view: &str, layer: Layer) -> Vec<(Point, f64)> {
    let views = drawing.sheets.iter().flat_map(|s| &s.views).filter(|v| v.name == view);
    views
        .flat_map(|v| &v.marks)
        .filter(|m| m.layer == layer)
        .filter_map(|m| match m.shape {
            Shape::Circle { centre, radius } => Some((centre, radius)),
            _ => None,
        })
        .collect()
}

fn holds(list: &[(Point, f64)], y: f64, diameter: f64) -> bool {
    list.iter().any(|(c, r)| {
        c.x.abs() < 1e-9 && (c.y - y).abs() < 1e-6 && (r * 2.0 - diameter).abs() < 1e-6
    })
}

#[test]
fn bore_and_string_have_their_sizes_and_the_socket_rests_on_the_wall() {
    let design = design(CREEK);
    let drawing = cross_section(&subject(&design, System::Metric));
    assert_eq!(drawing.id, "cross-section");
    let bore = circles(&drawing, "cross section at a joint", Layer::Bore);
    for d in [0.25, 0.45, 0.65, 0.8] {
        assert!(holds(&bore, 0.0, d), "{d}");
    }
    let pipe = circles(&drawing, "cross section at a joint", Layer::Pipe);
    // Socket of 510 mm with 20 mm of protection on the lower wall of a bore of 800 mm.
    let y = -(0.8 - 0.53) / 2.0;
    for d in [0.51, 0.439, 0.429, 0.4128, 0.4028] {
        assert!(holds(&pipe, y, d), "{d} {pipe:?}");
    }
    let around = circles(&drawing, "cross section at a joint", Layer::Clearance);
    assert!(holds(&around, y, 0.53));
}

#[test]
fn a_string_that_floats_lies_at_the_upper_wall() {
    let text =
        CREEK.replace("contents = \"part\"\nballast_share = \"50 %\"", "contents = \"empty\"");
    let design = design(&text);
    let drawing = cross_section(&subject(&design, System::Metric));
    let pipe = circles(&drawing, "cross section at a joint", Layer::Pipe);
    assert!(holds(&pipe, (0.8 - 0.53) / 2.0, 0.439), "{pipe:?}");
    assert!(drawing.sheets[0].description.contains("floats up"));
}

#[test]
fn old_main_expander_and_new_main_have_their_sizes() {
    let design = design(STREET);
    let Design::Renewal(renewal) = &design else { panic!("bursting") };
    let expander = renewal.burst.expander_diameter.expect("expander").si();
    let drawing = cross_section(&subject(&design, System::Metric));
    let before = circles(&drawing, "old main", Layer::Host);
    assert!(holds(&before, 0.0, 0.2) && holds(&before, 0.0, 0.224));
    let after = "new main in place of the old one";
    assert!(holds(&circles(&drawing, after, Layer::Bore), 0.0, expander));
    let y = -(expander - 0.357) / 2.0;
    assert!(holds(&circles(&drawing, after, Layer::Pipe), y, 0.284));
    // Eight pieces, together as long as the old ring at half its wall.
    let view = drawing.sheets[0].views.iter().find(|v| v.name == after).expect("view");
    let pieces: Vec<_> = view
        .marks
        .iter()
        .filter_map(|m| match &m.shape {
            Shape::Path { points, closed: true } if m.layer == Layer::Host => Some(points),
            _ => None,
        })
        .collect();
    assert_eq!(pieces.len(), 8);
    let angle = |p: &Point| p.y.atan2(p.x);
    let turn = (angle(&pieces[0][10]) - angle(&pieces[0][0])).rem_euclid(std::f64::consts::TAU);
    let long = 8.0 * turn * (expander / 2.0 + 0.006);
    assert!((long - std::f64::consts::PI * 0.212).abs() < 1e-6, "{long}");
    assert!(pieces.iter().flat_map(|p| p.iter()).all(|p| p.x.hypot(p.y) >= expander / 2.0 - 1e-9));
}

#[test]
fn entry_exit_and_string_stand_at_their_true_distances() {
    let design = design(CREEK);
    let Design::Crossing(project) = &design else { panic!("drilling") };
    let end = project.line.sample(project.line.length().si()).position;
    let drawing = site_layout(&subject(&design, System::Metric));
    let marks = &drawing.sheets[0].views[0].marks;
    let lengths: Vec<f64> = marks
        .iter()
        .filter_map(|m| match &m.shape {
            Shape::Dimension(d) => Some((d.to.x - d.from.x).hypot(d.to.y - d.from.y)),
            _ => None,
        })
        .collect();
    assert!((lengths[0] - end.x.hypot(end.y)).abs() < 1e-6, "{lengths:?}");
    // 50 pipes of 6 m take 291.7 m of bore and 6 m beyond.
    assert!((lengths[1] - 300.0).abs() < 1e-6, "{lengths:?}");
    let words: Vec<String> = boxes(&drawing.sheets[0]).into_iter().map(|(w, _)| w).collect();
    assert!(words.join(" ").contains("None are invented here"));
}

#[test]
fn the_long_section_shows_axis_services_and_forces_where_they_are() {
    let design = design(STREET);
    let subject = subject(&design, System::Metric);
    let drawing = renewal_section(&subject).expect("bursting");
    assert_eq!(drawing.id, "long-section");
    let view = &drawing.sheets[0].views[0];
    assert!(view.scale_across <= 500.0);
    let service = view.marks.iter().any(|m| match &m.shape {
        Shape::Path { points, .. } if m.layer == Layer::Site && points.len() == 2 => {
            points.iter().all(|p| (p.x - 47.0).abs() < 1e-9) && (points[0].y - 29.16).abs() < 0.01
        }
        _ => false,
    });
    assert!(service, "the service at 47 m reaches from the axis to the ground");
    let profile = subject.assessment.profiles.iter();
    let mut profile = profile.filter(|p| p.id == "burst.force.rig.planning.1");
    let greatest = profile.next().expect("profile").values.iter().copied().fold(0.0, f64::max);
    let words = format!("{:.0}", greatest / 1000.0);
    assert!(boxes(&drawing.sheets[0]).iter().any(|(w, _)| *w == words), "{words}");
    // Gas main: 2.6 m beside, at most 1 m above; half of 180 mm and of the expander go off.
    let Design::Renewal(renewal) = &design else { panic!("bursting") };
    let expander = renewal.burst.expander_diameter.expect("expander").si();
    let clear = clear_of_expander(renewal, 0).expect("passed");
    assert!((clear - (2.6_f64.hypot(0.9) - 0.09 - expander / 2.0)).abs() < 1e-9, "{clear}");
    assert!(renewal_section(&self::subject(&self::design(CREEK), System::Metric)).is_none());
}

#[test]
fn sheets_follow_each_other_without_gap() {
    let one = pages((-7.0, 126.0), 382.0);
    assert_eq!((one.len(), one[0].scale), (1, 500.0));
    assert!(pages((0.0, 12.0), 382.0)[0].scale <= 50.0);
    let many = pages((-3.0, 1504.0), 382.0);
    assert!(many.len() > 5 && many.iter().all(|p| (p.scale - 500.0).abs() < 1e-9));
    assert!((many[0].from + 3.0).abs() < 1e-9 && (many[many.len() - 1].to - 1504.0).abs() < 1e-9);
    for two in many.windows(2) {
        assert!((two[0].to - two[1].from).abs() < 1e-9);
        assert!((two[0].to / 10.0).fract().abs() < 1e-9, "a round chainage");
    }
}

#[test]
fn what_is_missing_is_said() {
    let design = design(&bare());
    let subject = subject(&design, System::Metric);
    let said = |drawing: &Drawing, words: &str| {
        let all: Vec<String> = drawing.sheets.iter().flat_map(boxes).map(|(w, _)| w).collect();
        all.join(" ").contains(words)
    };
    let cross = cross_section(&subject);
    assert!(said(&cross, "old trench is not given"));
    let section = renewal_section(&subject).expect("bursting");
    assert!(said(&section, "No neighbours are given"));
    assert!(said(&section, "groundwater is not given"));
    assert!(said(&section, "launch pits is not given"));
    let plan = renewal_plan(&subject).expect("bursting");
    assert!(said(&plan, "no coordinates are known"));
}

#[test]
fn the_same_design_gives_the_same_drawings() {
    for text in [CREEK.to_owned(), long()] {
        let design = design(&text);
        let once = all(&subject(&design, System::Metric));
        assert_eq!(once, all(&subject(&design, System::Metric)));
    }
}
