//! Faults and doubts that files on pipe bursting are read for: runs, sub-strings, placeholders, fields of drilling.

use crate::street::{STREET, changed, codes, messages, one, renewal, shown};

#[test]
fn runs_do_not_overlap_and_lengths_left_out_are_named() {
    let two = |b: &str| {
        format!(
            "launch = \"60 m\"\nmachine = \"0 m\"\n\n[[run]]\nname = \"B\"\nlaunch = \"118 m\"\nmachine = \"{b} m\""
        )
    };
    let first = "launch = \"118 m\"\nmachine = \"0 m\"";
    assert_eq!(codes(&[(first, &two("60"))]), []);
    assert_eq!(codes(&[(first, &two("50"))]), one("runs_overlap", "/run/1/launch"));
    let gap = messages(&changed(STREET, &[(first, &two("70"))]));
    assert_eq!((gap.len(), gap[0].code), (1, "main_left_out"), "{}", shown(&gap));
    assert!(gap[0].message.contains("60 m to 70 m: 1 service lies there"), "{}", gap[0]);
}

#[test]
fn sub_strings_add_up_to_the_pipes_of_every_run() {
    let with = |list: &str| {
        let text = format!("assembly = \"sub-strings\"\nsub_strings = {list}");
        codes(&[("assembly = \"pipe by pipe\"", &text)])
    };
    assert_eq!(with("[10, 10]"), []);
    for list in ["[10, 9]", "[10, 10, 1]", "[30]"] {
        assert_eq!(with(list), one("sub_strings_do_not_fit", "/string/sub_strings"), "{list}");
    }
}

#[test]
fn one_fault_does_not_hide_the_next() {
    assert_eq!(
        codes(&[("grey cast iron", "gray iron"), ("wall = \"12 mm\"", "wall = \"200 mm\"")]).len(),
        2
    );
    assert_eq!(codes(&[("at = \"84 m\"", "at = \"840 m\""), ("[55, 31.2]", "[55, 29]")]).len(), 2);
    assert_eq!(
        codes(&[
            ("[118, 29.1]]", "[-1, 29.1]]"),
            ("to = \"118 m\"\nmaterial", "to = \"0 m\"\nmaterial")
        ])
        .len(),
        2
    );
    let second = "launch = \"118 m\"\nmachine = \"60 m\"\n\n[[run]]\nname = \"B\"\nlaunch = \"0 m\"\nmachine = \"0 m\"";
    let list = codes(&[
        ("launch = \"118 m\"\nmachine = \"0 m\"", second),
        ("to = \"118 m\"\nmaterial", "to = \"100 m\"\nmaterial"),
    ]);
    assert!(list.contains(&("no_stretch", "/run/0/launch".to_owned())), "{list:?}");
}

#[test]
fn a_bore_far_from_the_nominal_size_is_worth_a_look() {
    let path = "/host/stretch/0/inside_diameter";
    assert_eq!(codes(&[("\ndn = 200", "\ndn = 150")]), one("bore_off_nominal", path));
    assert_eq!(codes(&[("\ndn = 200", "\ndn = 225")]), []);
}

#[test]
fn a_placeholder_is_no_decision() {
    let of = |key: &str, text: &str| {
        let all = format!("[host.asbestos]\n{key} = \"{text}\"\n\n# The fill of");
        codes(&[("# The fill of", &all)])
    };
    for text in ["-", "?", "TBD", "n/a", " ... "] {
        assert_eq!(of("authority", text), one("placeholder", "/host/asbestos/authority"), "{text}");
    }
    assert_eq!(of("notice", "no. 7"), one("no_date", "/host/asbestos/notice"));
    assert_eq!(of("notice", "no. 7 of 3 May 2031"), []);
}

#[test]
fn what_only_a_bore_asks_for_is_no_field_of_a_renewal() {
    for key in ["contents = \"water\"", "support = \"ground\"", "head_link = \"3 m\""] {
        let list = codes(&[("assembly = \"pipe by pipe\"", key)]);
        let path = format!("/string/{}", key.split(' ').next().unwrap());
        assert_eq!(list, one("unknown_key", &path));
    }
    let bare = renewal(&changed(STREET, &[("assembly = \"pipe by pipe\"\n", "")]));
    assert_eq!(bare.string.assembly, project::Assembly::PipeByPipe);
}

#[test]
fn a_plate_fits_into_the_machine_pit() {
    assert_eq!(
        codes(&[("machine_width = \"4 m\"", "machine_width = \"3.9 m\"")]),
        one("plate_too_wide", "/pit/plate_width")
    );
}

#[test]
fn groundwater_does_not_stand_above_the_street() {
    assert_eq!(codes(&[("\"27 m\"", "\"30.8 m\"")]), []);
    assert_eq!(
        codes(&[("\"27 m\"", "\"30.9 m\"")]),
        one("water_above_ground", "/site/groundwater_level")
    );
}

#[test]
fn a_feature_ends_behind_its_beginning() {
    let backwards = changed(
        STREET,
        &[("at = \"84 m\"\nkind = \"valve\"", "at = \"84 m\"\nto = \"80 m\"\nkind = \"valve\"")],
    );
    let list = messages(&backwards);
    assert!(
        list.iter().any(|d| d.code == "order" && d.path.starts_with("/host/feature/1/to")),
        "{}",
        shown(&list)
    );
    let beyond = changed(
        STREET,
        &[("at = \"84 m\"\nkind = \"valve\"", "at = \"84 m\"\nto = \"180 m\"\nkind = \"valve\"")],
    );
    assert!(messages(&beyond).iter().any(|d| d.path.starts_with("/host/feature/1/to")));
}
