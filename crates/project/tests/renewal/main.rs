//! Files on pipe bursting: the demos read, every field counts, and every fault is named in one pass.

use std::collections::BTreeSet;
use std::ops::Range;

use project::{Design, Severity, Technique, no_files, read_design};
use proptest::prelude::*;
use toml::de::{DeTable, DeValue};

use self::street::{STREET, changed, codes, messages, one, renewal, shown};

mod faults;
mod street;

const LANE: &str = include_str!("../../../../demo/lane-asbestos.toml");
const DEMOS: [(&str, &str); 2] = [("street.toml", STREET), ("lane-asbestos.toml", LANE)];

#[test]
fn the_demos_read_without_a_warning() {
    for (name, text) in DEMOS {
        let reading =
            read_design(name, text, &no_files).unwrap_or_else(|l| panic!("{}", shown(&l)));
        assert!(reading.warnings.is_empty(), "{}", shown(&reading.warnings));
        assert_eq!(reading.design.technique(), Technique::Bursting);
        assert!(reading.design.note().is_some_and(|n| n.contains("Invented")), "{name}");
    }
}

#[test]
fn a_file_on_bursting_is_no_crossing() {
    let list = project::read("x.toml", STREET).unwrap_err();
    assert_eq!(list.iter().map(|d| d.code).collect::<Vec<_>>(), ["not_a_crossing"]);
}

#[test]
fn the_schema_takes_the_demos_and_refuses_an_unknown_key() {
    let validator = jsonschema::validator_for(&project::schema(Technique::Bursting)).unwrap();
    let json = |text: &str| {
        let table: toml::Table = toml::from_str(text).unwrap();
        serde_json::to_value(table).unwrap()
    };
    for (name, text) in DEMOS {
        let instance = json(text);
        let faults: Vec<_> = validator.iter_errors(&instance).map(|e| e.to_string()).collect();
        assert!(faults.is_empty(), "{name}: {faults:#?}");
    }
    assert!(!validator.is_valid(&json(&changed(STREET, &[("[burst]", "[burst]\nnonsense = 1")]))));
    assert!(!validator.is_valid(&json(&changed(STREET, &[("launch = \"118 m\"", "")]))));
    assert!(!validator.is_valid(&json(&changed(STREET, &[("grey cast iron", "gray iron")]))));
}

/// The street with every field that a demo leaves out, as far as fields can stand beside each other.
fn full() -> String {
    changed(
        STREET,
        &[
            (
                "[string]\n",
                "[coordinates]\nepsg = 32631\npoints = [[0, 500000, 100000], [118, 500118, 100000]]\n\
                 datum = \"mean sea level\"\n\n[string]\n",
            ),
            ("wall = \"12 mm\"", "wall = \"12 mm\"\nstrength = \"150 MPa\""),
            ("at = \"6 m\"", "at = \"6 m\"\nname = \"no. 2\""),
            ("kind = \"valve\"", "to = \"85 m\"\nkind = \"valve\""),
            (
                "# The fill of the old trench",
                "[host.asbestos]\nauthority = \"inspectorate\"\nnotice = \"7/2031\"\ndecision = \"burst\"\n\
                 disposal = \"tip\"\nair_monitoring = \"at both pits\"\n\n# The fill",
            ),
            (
                "shear_modulus = \"8 MPa\"",
                "shear_modulus = \"8 MPa\"\nsaturated_unit_weight = \"20 kN/m3\"\nfriction_angle = \"33 deg\"\n\
                 cohesion = \"1 kPa\"\nundrained_strength = \"40 kPa\"\nk0 = 0.5\ntensile_strength = \"1 kPa\"\n\
                 piezometric_level = \"27 m\"",
            ),
            (
                "assembly = \"pipe by pipe\"",
                "assembly = \"pipe by pipe\"\nlining_thickness = \"4 mm\"\ncoating_density = \"2300 kg/m3\"\n\
                 wall_min = \"5.4 mm\"\nsocket_mass = \"20 kg\"",
            ),
            (
                "lubricated = \"yes\"",
                "lubricated = \"yes\"\nexpander_diameter = \"380 mm\"\ncone_half_angle = \"15 deg\"\n\
                 cone_friction = 0.3\ncutters = 1\nspeed = \"0.6 m/min\"\njoint_time = \"15 min\"\n\
                 reset_time = \"2 min\"",
            ),
            (
                "test_pressure = \"15 bar\"",
                "test_pressure = \"15 bar\"\nreference_level = \"29.7 m\"",
            ),
            (
                "[factors]",
                "[factors]\nfriction = 0.25\nfriction_low = 0.15\nfriction_high = 0.3\nstress_ratio = 0.5\n\
                 collapsed_share = 0.25\nrestart = 1.35\nrig_share = 0.8\nwall_safety = 1.5\njoint_angle_share = 0.8\n\
                 barrel_share = 0.667\nheave_ratio = 0.8\nlongest_run = \"150 m\"\nattention = 0.85",
            ),
        ],
    )
}

/// Bytes of every value of the file that is not a table, with its path; array indices are left out of the path.
fn values(text: &str) -> Vec<(Range<usize>, String)> {
    fn walk(value: &toml::Spanned<DeValue<'_>>, path: &str, out: &mut Vec<(Range<usize>, String)>) {
        match value.get_ref() {
            DeValue::Table(table) => {
                table.iter().for_each(|(k, v)| walk(v, &format!("{path}/{}", k.get_ref()), out))
            }
            DeValue::Array(list) => list.iter().for_each(|v| walk(v, path, out)),
            _ => out.push((value.span(), path.to_owned())),
        }
    }
    let mut out = Vec::new();
    let table = DeTable::parse(text).expect("TOML");
    table.get_ref().iter().for_each(|(k, v)| walk(v, &format!("/{}", k.get_ref()), &mut out));
    out.sort_by_key(|(span, _)| span.start);
    out
}

/// Another value in place of one: a number one per cent larger, another word of a choice, another text.
fn other(path: &str, value: &str) -> Vec<String> {
    let bare = value.trim_matches('"');
    let end = bare.find(|c: char| !matches!(c, '0'..='9' | '.' | '-')).unwrap_or(bare.len());
    if let Ok(number) = bare[..end].parse::<f64>() {
        let by = |factor: f64| if number == 0.0 { factor - 1.0 } else { number * factor };
        let whole = !value.starts_with('"') && !bare[..end].contains('.') && number != 0.0;
        let quotes = if value.starts_with('"') { "\"" } else { "" };
        let to = if whole { [number + 1.0, number + 50.0] } else { [by(1.01), by(0.99)] };
        return to.map(|n| format!("{quotes}{n}{}{quotes}", &bare[end..])).to_vec();
    }
    let section = Technique::Bursting
        .sections()
        .iter()
        .rev()
        .find(|s| path.rsplit_once('/').is_some_and(|(section, _)| section == s.path()));
    let field = section.and_then(|s| s.field(path.rsplit('/').next()?));
    match field.map(|f| &f.value) {
        Some(project::fields::Value::Choice(words)) => {
            words.iter().filter(|w| w.word != bare).map(|w| format!("\"{}\"", w.word)).collect()
        }
        _ => vec![format!("\"{bare} too\"")],
    }
}

#[test]
fn every_value_of_a_full_file_makes_a_difference() {
    let text = full();
    let debug = |text: &str| {
        let Ok(reading) = read_design("x.toml", text, &no_files) else { return None };
        let Design::Renewal(mut renewal) = reading.design else { return None };
        // A warning alone is no use of a value, and neither is a list of what was assumed.
        renewal.warnings.clear();
        renewal.assumptions.clear();
        Some(format!("{renewal:?}"))
    };
    let before = debug(&text).unwrap_or_else(|| panic!("{}", shown(&messages(&text))));
    let mut tried = 0;
    for (span, path) in values(&text) {
        // Coating and support only stand for values that are given here.
        const OTHERWISE: [&str; 6] = [
            "/format",
            "/technique",
            "/ground/fill",
            "/ground/soil/name",
            "/string/coating",
            "/string/support",
        ];
        if OTHERWISE.contains(&path.as_str()) {
            continue;
        }
        let others = other(&path, &text[span.clone()]);
        let after: Vec<_> = others
            .iter()
            .filter_map(|value| {
                let mut text = text.clone();
                text.replace_range(span.clone(), value);
                debug(&text)
            })
            .collect();
        if after.is_empty() {
            // Nothing near fits the rest of the file: runs and ground reach to the ends of the axis, and so on.
            const HELD: [&str; 6] = [
                "/host/axis",
                "/host/stretch/from",
                "/host/stretch/to",
                "/string/class",
                "/string/contents",
                "/string/standard",
            ];
            assert!(HELD.contains(&path.as_str()), "{path}");
            continue;
        }
        assert!(after.iter().any(|a| *a != before), "{path} at byte {}", span.start);
        tried += 1;
    }
    assert!(tried > 100, "{tried}");
}

#[test]
fn the_coating_makes_a_difference_where_its_thickness_is_not_given() {
    let without = ("coating_thickness = \"5 mm\"\n", "");
    let barrel = |changes: &[(&str, &str)]| {
        renewal(&changed(STREET, changes)).string.pipe.barrel_diameter().to_millimetres()
    };
    let mortar = barrel(&[without]);
    let plastic = barrel(&[without, ("\"fibre mortar\"", "\"polyethylene\"")]);
    assert!((mortar - plastic - 4.0).abs() < 1e-6, "{mortar} {plastic}");
}

#[test]
fn a_full_file_holds_every_field_but_those_that_stand_instead_of_others() {
    let text = full();
    let held: BTreeSet<String> = values(&text).into_iter().map(|(_, path)| path).collect();
    let missing: Vec<String> = Technique::Bursting
        .sections()
        .iter()
        .flat_map(|s| s.fields.iter().map(|f| format!("{}/{}", s.path(), f.key)))
        .filter(|path| !held.contains(path))
        .collect();
    assert_eq!(
        missing,
        [
            "/ground/soil/codes",
            "/string/size",
            "/string/outside_diameter",
            "/string/wall",
            "/string/mass_per_length",
            "/string/sub_strings",
        ]
    );
}

#[test]
fn stretches_that_overlap_or_leave_a_gap_are_named() {
    const SECOND: &str = "wall = \"12 mm\"\n\n[[host.stretch]]\nfrom = \"60 m\"\nto = \"118 m\"\n\
                          material = \"steel\"\ninside_diameter = \"200 mm\"\nwall = \"6 mm\"";
    let first = "to = \"118 m\"\nmaterial";
    for to in ["50", "70"] {
        let to = format!("to = \"{to} m\"\nmaterial");
        let list = codes(&[(first, &to), ("wall = \"12 mm\"", SECOND)]);
        assert_eq!(list, one("stretch_order", "/host/stretch/1/from"));
    }
    let met = [(first, "to = \"60 m\"\nmaterial"), ("wall = \"12 mm\"", SECOND)];
    assert_eq!(codes(&met), []);
    let text = shown(&messages(&changed(
        STREET,
        &[(first, "to = \"50 m\"\nmaterial"), ("wall = \"12 mm\"", SECOND)],
    )));
    assert!(text.contains("leaves a gap") && text.contains("50 m"), "{text}");
}

#[test]
fn a_run_must_lie_on_described_lengths_of_the_main() {
    assert_eq!(
        codes(&[("launch = \"118 m\"", "launch = \"120 m\"")]),
        one("outside_line", "/run/0/launch")
    );
    assert_eq!(
        codes(&[("machine = \"0 m\"", "machine = \"118 m\"")]),
        one("order", "/run/0/machine")
    );
    assert_eq!(
        codes(&[("to = \"118 m\"\nmaterial", "to = \"100 m\"\nmaterial")]),
        one("no_stretch", "/run/0/launch")
    );
    let without = STREET.find("# One pull, up").unwrap()..STREET.find("[pit]").unwrap();
    let mut text = STREET.to_owned();
    text.replace_range(without, "");
    let list = messages(&text);
    assert_eq!((list.len(), list[0].code, list[0].path.as_str()), (1, "missing", "/run"));
}

#[test]
fn a_neighbour_crosses_or_runs_beside() {
    let both = codes(&[("at = \"73 m\"", "at = \"73 m\"\noffset = \"1 m\"")]);
    assert!(both.iter().all(|(_, path)| path == "/site/neighbour/1/offset"), "{both:?}");
    assert_eq!(both.len(), 1);
    assert_eq!(codes(&[("at = \"73 m\"\n", "")]), one("missing", "/site/neighbour/1/at"));
    assert_eq!(codes(&[("offset = \"2.6 m\"\n", "")]), one("missing", "/site/neighbour/0/offset"));
    assert_eq!(
        codes(&[(
            "from = \"0 m\"\nto = \"118 m\"\noffset",
            "from = \"9 m\"\nto = \"9 m\"\noffset"
        )]),
        one("order", "/site/neighbour/0/to")
    );
}

#[test]
fn numbers_that_contradict_each_other_are_named() {
    assert_eq!(
        codes(&[("wall = \"12 mm\"", "wall = \"200 mm\"")]),
        one("order", "/host/stretch/0/wall")
    );
    assert_eq!(
        codes(&[("plate_bottom = \"3.2 m\"", "plate_bottom = \"0.3 m\"")]),
        one("order", "/pit/plate_bottom")
    );
    assert_eq!(codes(&[("plate_top = \"0.4 m\"\n", "")]), one("missing", "/pit/plate_top"));
    for (given, fine) in [
        ("friction = 0.1", false),
        ("friction = 0.4", false),
        ("friction_low = 0.26", false),
        ("friction = 0.15", true),
        ("friction_low = 0.1\nfriction = 0.1\nfriction_high = 0.1", true),
    ] {
        let list = codes(&[("[factors]", &format!("[factors]\n{given}"))]);
        let expected = if fine { vec![] } else { one("order", "/factors/friction") };
        assert_eq!(list, expected, "{given}");
    }
}

#[test]
fn the_fill_must_be_a_soil_of_the_file() {
    let list = messages(&changed(STREET, &[("fill = \"trench fill\"", "fill = \"trench fil\"")]));
    assert_eq!((list.len(), list[0].code), (1, "unknown_soil"));
    assert!(list[0].hint.as_deref().is_some_and(|h| h.contains("trench fill")), "{}", shown(&list));
    assert_eq!(codes(&[("fill = \"trench fill\"\n", "")]), one("missing", "/ground/fill"));
}

#[test]
fn a_material_that_is_not_known_gets_the_nearest_word() {
    let list = messages(&changed(STREET, &[("\"grey cast iron\"", "\"gray cast iron\"")]));
    assert_eq!((list.len(), list[0].path.as_str()), (1, "/host/stretch/0/material"));
    assert!(shown(&list).contains("grey cast iron"), "{}", shown(&list));
}

#[test]
fn the_ground_line_lies_over_the_main_and_above_it() {
    assert_eq!(codes(&[("[118, 30.8]", "[117, 30.8]")]), one("ground_too_short", "/site/ground"));
    assert_eq!(codes(&[("[55, 31.2]", "[55, 29]")]), one("above_ground", "/site/ground"));
    // Only where the main lies does the ground count.
    assert_eq!(codes(&[("[[0, 31.4]", "[[-30, 20], [0, 31.4]")]), []);
}

#[test]
fn names_that_stand_twice_are_refused() {
    assert_eq!(
        codes(&[("name = \"storm drain\"", "name = \"Gas main\"")]),
        one("name_twice", "/site/neighbour/1/name")
    );
    let twice = "machine = \"60 m\"\n\n[[run]]\nname = \"a\"\nlaunch = \"60 m\"\nmachine = \"0 m\"";
    assert_eq!(codes(&[("machine = \"0 m\"", twice)]), one("name_twice", "/run/1/name"));
}

#[test]
fn what_lies_off_the_main_is_named() {
    for (from, to, path) in [
        ("at = \"61 m\"", "at = \"119 m\"", "/host/bend/0/at"),
        ("at = \"84 m\"", "at = \"-1 m\"", "/host/feature/1/at"),
        ("at = \"111 m\"", "at = \"1110 m\"", "/host/service/10/at"),
    ] {
        assert_eq!(codes(&[(from, to)]), one("outside_line", path));
    }
}

#[test]
fn all_faults_of_a_broken_file_are_named_in_one_pass() {
    let list = codes(&[
        ("name = \"storm drain\"", "name = \"gas main\""),
        ("at = \"73 m\"", "at = \"73 m\"\noffset = \"1 m\""),
        ("wall = \"12 mm\"", "wall = \"250 mm\""),
        ("at = \"61 m\"", "at = \"619 m\""),
        ("at = \"38 m\"", "at = \"380 m\""),
        ("kind = \"valve\"", "kind = \"valv\""),
        ("at = \"111 m\"", "at = \"1110 m\""),
        ("fill = \"trench fill\"", "fill = \"clay\""),
        ("class = \"K9\"", "class = \"K99\""),
        ("lubricated = \"yes\"", "lubricated = \"yes\"\ncutters = 0"),
        ("launch = \"118 m\"", "launch = \"0 m\""),
        ("plate_bottom = \"3.2 m\"", "plate_bottom = \"0.3 m\""),
        ("pullback = \"1000 kN\"", "pullback = \"-1000 kN\""),
        ("test_pressure = \"15 bar\"", "test_pressure = \"15 m\""),
        ("[factors]", "[factors]\nfriction = 0.9"),
    ]);
    for path in [
        "/site/neighbour/1/name",
        "/site/neighbour/1/offset",
        "/host/stretch/0/wall",
        "/host/bend/0/at",
        "/host/feature/0/at",
        "/host/feature/1/kind",
        "/host/service/10/at",
        "/ground/fill",
        "/string/class",
        "/burst/cutters",
        "/run/0/machine",
        "/pit/plate_bottom",
        "/rig/pullback",
        "/service/test_pressure",
        "/factors/friction",
    ] {
        assert!(list.iter().any(|(_, p)| p == path), "{path} is not in {list:#?}");
    }
    assert_eq!(list.len(), 15, "{list:#?}");
}

/// Reads and checks what must hold for any bytes.
fn survive(bytes: &[u8]) {
    let lines = bytes.iter().filter(|b| **b == b'\n').count() + 1;
    let list = match project::read_bytes("x.toml", bytes, &no_files) {
        Ok(reading) => reading.warnings,
        Err(list) => {
            assert!(list.iter().any(|d| d.severity == Severity::Error));
            list
        }
    };
    for d in list {
        assert!(d.line >= 1 && d.line <= lines, "line {} of {lines}: {d}", d.line);
        assert!(d.column >= 1 && d.end_column > d.column, "{d}");
    }
}

fn token() -> impl Strategy<Value = String> {
    prop_oneof![
        Just("\"\"".to_owned()),
        Just("[[]]".to_owned()),
        Just("[[0, 1]]".to_owned()),
        Just("{}".to_owned()),
        Just("nan".to_owned()),
        Just("-inf".to_owned()),
        Just("1e308".to_owned()),
        Just("true".to_owned()),
        Just("\"own\"".to_owned()),
        Just("\"0 mm\"".to_owned()),
        Just("\"prestressed concrete\"".to_owned()),
        Just("\"drilling\"".to_owned()),
        any::<i64>().prop_map(|n| n.to_string()),
        any::<f64>().prop_map(|n| format!("{n:?}").to_lowercase()),
        (-500.0..500.0f64).prop_map(|n| format!("{n:.2}")),
        (-200.0..200.0f64).prop_map(|n| format!("\"{n:.3} m\"")),
        "[a-z=\"\\[\\]{}#\u{e9}\t\r\n. 0-9-]{0,12}",
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn a_cut_file_is_read_or_refused(at in 0..STREET.len()) {
        survive(&STREET.as_bytes()[..at]);
        let rest = format!("technique = \"bursting\"\n{}", &STREET[at..]);
        survive(rest.as_bytes());
    }

    #[test]
    fn a_file_with_changed_bytes_is_read_or_refused(
        changes in proptest::collection::vec((0..LANE.len(), any::<u8>()), 1..6)
    ) {
        let mut bytes = LANE.as_bytes().to_vec();
        for (at, byte) in changes {
            bytes[at] = byte;
        }
        survive(&bytes);
    }

    #[test]
    fn a_file_with_other_values_is_read_or_refused(
        changes in proptest::collection::vec((any::<prop::sample::Index>(), token()), 1..8)
    ) {
        let mut text = full();
        let places = values(&text);
        let mut chosen: Vec<_> = changes
            .into_iter()
            .map(|(index, token)| (index.index(places.len()), token))
            .collect();
        chosen.sort_by_key(|(i, _)| std::cmp::Reverse(*i));
        chosen.dedup_by_key(|(i, _)| *i);
        for (i, token) in chosen {
            text.replace_range(places[i].0.clone(), &token);
        }
        survive(text.as_bytes());
    }

    #[test]
    fn a_file_with_lines_in_another_order_is_read_or_refused(
        order in Just(STREET.lines().collect::<Vec<_>>()).prop_shuffle(),
        take in 0usize..140,
    ) {
        let rest = order.into_iter().take(take).collect::<Vec<_>>().join("\n");
        survive(format!("technique = \"bursting\"\n{rest}").as_bytes());
    }

    #[test]
    fn what_is_read_holds_what_later_steps_rely_on(
        factors in proptest::collection::vec((any::<prop::sample::Index>(), prop_oneof![
            0.2f64..4.0, Just(0.0), Just(-1.0)
        ]), 1..4)
    ) {
        let mut text = full();
        let mut places = values(&text);
        places.retain(|(span, _)| text[span.clone()].trim_matches('"').starts_with(|c: char| c.is_ascii_digit()));
        let mut chosen: Vec<_> = factors.into_iter().map(|(i, f)| (i.index(places.len()), f)).collect();
        chosen.sort_by_key(|(i, _)| std::cmp::Reverse(*i));
        chosen.dedup_by_key(|(i, _)| *i);
        for (i, factor) in chosen {
            let span = places[i].0.clone();
            let value = text[span.clone()].to_owned();
            let bare = value.trim_matches('"');
            let end = bare.find(|c: char| !matches!(c, '0'..='9' | '.')).unwrap_or(bare.len());
            let number: f64 = bare[..end].parse().unwrap();
            let quotes = if value.starts_with('"') { "\"" } else { "" };
            text.replace_range(span, &format!("{quotes}{}{}{quotes}", number * factor, &bare[end..]));
        }
        let Ok(reading) = read_design("x.toml", &text, &no_files) else { return Ok(()) };
        let Design::Renewal(r) = reading.design else { panic!("not a renewal") };
        for run in &r.runs {
            prop_assert!(run.length().si() > 0.0);
            for x in [run.launch, run.machine] {
                prop_assert!(r.host.stretches.iter().any(|s| x >= s.from && x <= s.to));
                prop_assert!(r.street.ground.level_extended(x) > r.host.axis.level_extended(x));
            }
        }
        for s in &r.host.stretches {
            prop_assert!(s.from < s.to && s.wall < s.inside_diameter && s.wall.si() > 0.0);
            prop_assert!(s.strength[0] <= s.strength[1] && s.strength[1] <= s.strength[2]);
        }
        let [low, middle, high] = r.factors.friction;
        prop_assert!(low <= middle && middle <= high);
        prop_assert!(r.fill.soil < r.soils.len());
        if let Some([_, top, bottom]) = r.pit.plate {
            prop_assert!(top < bottom);
        }
    }
}

#[test]
fn a_strength_that_is_given_has_no_band() {
    let measured =
        changed(STREET, &[("wall = \"12 mm\"", "wall = \"12 mm\"\nstrength = \"120 MPa\"")]);
    let stretch = &renewal(&measured).host.stretches[0];
    assert!(stretch.strength.iter().all(|s| (s.si() - 120e6).abs() < 1.0));
    let usual = &renewal(STREET).host.stretches[0];
    assert!(usual.strength[0] < usual.strength[1] && usual.strength[1] < usual.strength[2]);
}

#[test]
fn defaults_follow_lubrication_fill_and_water() {
    let f = |changes: &[(&str, &str)]| renewal(&changed(STREET, changes)).factors;
    assert_eq!(f(&[]).friction, [0.15, 0.25, 0.3]);
    assert_eq!(f(&[("lubricated = \"yes\"", "lubricated = \"no\"")]).friction, [0.3, 0.4, 0.6]);
    assert_eq!(f(&[]).heave_ratio, 0.8);
    assert_eq!(f(&[("density = \"dense\"", "density = \"loose\"")]).heave_ratio, 0.5);
    assert_eq!(f(&[("medium dense sand", "stiff clay")]).heave_ratio, 1.0);
    // The lower edge of the plate lies at 31.4 - 3.2 = 28.2 m at the machine pit.
    assert_eq!(f(&[("\"27 m\"", "\"28.19 m\"")]).wall_safety, 1.5);
    assert_eq!(f(&[("\"27 m\"", "\"28.21 m\"")]).wall_safety, 2.0);
}

#[test]
fn the_expander_reaches_the_protected_socket_with_room() {
    let r = renewal(STREET);
    let socket = r.string.pipe.largest_diameter().unwrap();
    let room = r.burst.expander_diameter.unwrap() - socket;
    assert!((room.to_millimetres() - 20.0).abs() < 1e-9);
    let large = [
        ("dn = 250", "dn = 400"),
        ("socket_diameter = \"345 mm\"", "socket_diameter = \"521 mm\""),
    ];
    let r = renewal(&changed(STREET, &large));
    let room = r.burst.expander_diameter.unwrap() - r.string.pipe.largest_diameter().unwrap();
    assert!((room.to_millimetres() - 40.0).abs() < 1e-9);
}
