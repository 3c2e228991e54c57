//! Values that are allowed and seldom meant are warnings, and the files of the program have none.

use project::{Severity, read_with_warnings};

const CREEK: &str = include_str!("../../../demo/creek.toml");

/// The only warning on the demo with some of its text replaced: code and path.
fn warning(changes: &[(&str, &str)]) -> (&'static str, String) {
    let mut text = CREEK.to_owned();
    for (from, to) in changes {
        assert!(text.contains(from), "{from}");
        text = text.replacen(from, to, 1);
    }
    let shown =
        |list: &[project::Diagnostic]| list.iter().map(|d| format!("{d}\n")).collect::<String>();
    let reading = read_with_warnings("creek.toml", &text)
        .unwrap_or_else(|list| panic!("{changes:?}:\n{}", shown(&list)));
    assert_eq!(reading.project.warnings, reading.warnings);
    let [found] = reading.warnings.as_slice() else {
        panic!("{changes:?}:\n{}", shown(&reading.warnings));
    };
    assert_eq!(found.severity, Severity::Warning);
    assert!(found.found.is_some() && found.hint.is_some(), "{found}");
    assert!(found.allowed.as_deref().is_some_and(|a| a.starts_with("usually ")), "{found}");
    assert!(found.line > 1 && found.end_column > found.column, "{found}");
    (found.code, found.path.clone())
}

fn unusual(from: &str, to: &str, path: &str) {
    assert_eq!(warning(&[(from, to)]), ("unusual", path.to_owned()), "{to}");
}

/// That a value is not warned of.
fn usual(from: &str, to: &str) {
    let text = CREEK.replacen(from, to, 1);
    assert_ne!(text, CREEK, "{from}");
    let reading = read_with_warnings("creek.toml", &text).expect("a valid file");
    assert!(reading.warnings.is_empty(), "{to}: {:#?}", reading.warnings);
}

#[test]
fn dimensions_of_rods() {
    let diameter = "diameter = \"89 mm\"";
    unusual(diameter, "diameter = 8.9", "/bore/rods/diameter");
    let wide_pilot = ("pilot_diameter = \"250 mm\"", "pilot_diameter = \"400 mm\"");
    let thick = warning(&[(diameter, "diameter = \"12 in\""), wide_pilot]);
    assert_eq!(thick, ("unusual", "/bore/rods/diameter".to_owned()));
    let radius = ("minimum_radius = \"107 m\"", "minimum_radius = \"10.7 m\"");
    unusual(radius.0, radius.1, "/bore/rods/minimum_radius");
    usual(diameter, "diameter = \"3.5 in\"");
}

#[test]
fn layers_and_sleeves_thinner_than_any() {
    let coating = "coating_thickness = \"5 mm\"";
    unusual(coating, "coating_thickness = 0.2", "/string/coating_thickness");
    usual(coating, "coating_thickness = 0");
    let lining = "lining_thickness = \"5 mm\"";
    unusual(lining, "lining_thickness = 0.5", "/string/lining_thickness");
    usual(lining, "lining_thickness = 0");
    let protection = "protection = \"20 mm\"";
    unusual(protection, "protection = 2", "/string/protection");
    usual(protection, "protection = 0");
}

#[test]
fn a_round_obstacle_thinner_than_any_pipe() {
    unusual("diameter = \"300 mm\"", "diameter = 0.3", "/site/obstacle/3/diameter");
}

#[test]
fn water_above_both_ends() {
    let above = |from, to, key: &str| {
        assert_eq!(warning(&[(from, to)]), ("water_above_ends", format!("/site/{key}")));
    };
    let free = "free_water_level = \"2.9 m\"";
    above(free, "free_water_level = \"29 ft\"", "free_water_level");
    above("groundwater_level = \"1.8 m\"", "groundwater_level = 4.3", "groundwater_level");
    usual(free, "free_water_level = 4.1");
}

#[test]
fn an_obstacle_in_the_air() {
    let lane = "underside = \"3.2 m\"";
    let code = warning(&[(lane, "underside = \"32 m\"")]);
    assert_eq!(code, ("in_the_air", "/site/obstacle/2/underside".to_owned()));
    usual(lane, "underside = \"4.1 m\"");
    // The bank rises above its ends: under its crest an underside above both ends is in the ground.
    usual("underside = \"3.3 m\"", "underside = \"5.9 m\"");
}

#[test]
fn radii_that_no_bore_has() {
    let start = CREEK.find("[line]").unwrap();
    let end = CREEK.find("# The pipes,").unwrap();
    let one = |tail: &str| {
        let down = "[line]\nentry_level = 4.2\nentry_angle = 12\n[[line.element]]\nlength = 30\n\
                    [[line.element]]\nradius = 250\nturn = 12\ntoward = \"up\"\n\
                    [[line.element]]\nlength = 120\n";
        warning(&[(&CREEK[start..end], &format!("{down}{tail}"))])
    };
    let (code, path) = one("[[line.element]]\nradius = 29\nturn = 9\ntoward = 0\n\
                            [[line.element]]\nlength = 68.7\n");
    assert_eq!((code, path.as_str()), ("unusual", "/line/element/3/radius"));
    let (code, path) = one("[[line.element]]\nradius = 300\nturn = 9\ntoward = 0\n\
                            [[line.element]]\nradius = 300\nturn = 0.2\ntoward = 0\n\
                            [[line.element]]\nlength = 46\n");
    assert_eq!((code, path.as_str()), ("unusual", "/line/element/4/turn"));
    unusual("entry_radius = \"250 m\"", "entry_radius = 25", "/line/entry_radius");
    unusual("exit_radius = \"300 m\"", "exit_radius = \"29 m\"", "/line/exit_radius");
    unusual("radius = \"500 m\"\nangle", "radius = 20\nangle", "/line/bend/0/radius");
}

#[test]
fn angles_that_may_be_radians() {
    unusual("angle = \"5 deg\"", "angle = -0.087", "/line/bend/0/angle");
    // A flat end never reaches the depth of the demo, so the whole line is flatter.
    let flat = [
        ("entry_angle = \"12 deg\"", "entry_angle = 2.9"),
        ("lowest_level = \"-7 m\"", "lowest_level = \"2.5 m\""),
        ("entry_radius = \"250 m\"", "entry_radius = \"400 m\""),
        ("exit_radius = \"300 m\"", "exit_radius = \"100 m\""),
        ("[[line.bend]]\nstart = \"55 m\"\nradius = \"500 m\"\nangle = \"5 deg\"", ""),
    ];
    assert_eq!(warning(&flat), ("unusual", "/line/entry_angle".to_owned()));
    let flat = [
        ("exit_angle = \"8 deg\"", "exit_angle = 0.14"),
        ("entry_angle = \"12 deg\"", "entry_angle = 6"),
        ("lowest_level = \"-7 m\"", "lowest_level = \"3.4 m\""),
        ("entry_radius = \"250 m\"", "entry_radius = \"100 m\""),
        ("[[line.bend]]\nstart = \"55 m\"\nradius = \"500 m\"\nangle = \"5 deg\"", ""),
    ];
    assert_eq!(warning(&flat), ("unusual", "/line/exit_angle".to_owned()));
}

#[test]
fn a_final_diameter_that_no_pass_cuts() {
    let last = "ream = [\"450 mm\", \"650 mm\", \"800 mm\"]";
    let with = |final_diameter: &str| format!("{last}\nfinal_diameter = {final_diameter}");
    let code = warning(&[(last, &with("900"))]);
    assert_eq!(code, ("not_reamed", "/bore/final_diameter".to_owned()));
    usual(last, &with("804"));
    usual(last, "final_diameter = 900");
}

#[test]
fn values_of_a_joint_of_another_order() {
    unusual("allowable_angle = \"3 deg\"", "allowable_angle = 7", "/string/joint/allowable_angle");
    let pull = "permitted_pull = \"510 kN\"";
    unusual(pull, "permitted_pull = 5100", "/string/joint/permitted_pull");
    unusual(pull, "permitted_pull = \"51 kN\"", "/string/joint/permitted_pull");
    usual(pull, "permitted_pull = \"650 kN\"");
}

#[test]
fn friction_fluid_and_rig_of_another_order() {
    let friction = |value: &str| {
        // The expected friction follows, so that it does not exceed that of the checks.
        let both = format!("friction_bore = {value}\nfriction_bore_expected = {value}");
        unusual("[factors]", &format!("[factors]\n{both}"), "/factors/friction_bore");
    };
    friction("0");
    friction("0.9");
    usual("[factors]", "[factors]\nfriction_bore = 0.8");
    let pressure = "excess_pressure = \"30 kPa\"";
    unusual(pressure, "excess_pressure = 0.3", "/fluid/excess_pressure");
    let density = "density = \"1150 kg/m3\"";
    unusual(density, "density = 990\nfresh_density = 980", "/fluid/density");
    unusual(density, "density = \"1.7 t/m3\"", "/fluid/density");
    usual(density, "density = \"9.6 ppg\"");
    let rig = "pullback = \"600 kN\"";
    unusual(rig, "pullback = \"10 kN\"", "/rig/pullback");
    unusual(rig, "pullback = 45000", "/rig/pullback");
}

/// The same with a line added to a section of the demo.
fn unusual_line(section: &str, line: &str, path: &str) {
    unusual(section, &format!("{section}\n{line}"), path);
}

fn usual_line(section: &str, line: &str) {
    usual(section, &format!("{section}\n{line}"));
}

#[test]
fn ground_like_a_cliff() {
    let bank = "[152, 3.3], [158, 3.4], [166, 6.0], [171, 6.0], [179, 3.5]";
    // A peak that rises steeply and falls at less than 1:1.
    let code = warning(&[(bank, "[158, 3.4], [171, 33], [205, 3.5]")]);
    assert_eq!(code, ("steep_ground", "/site/ground/8/1".to_owned()));
    let boring = ("offset = \"9 m\"\nlevel = \"3.4 m\"", "offset = \"9 m\"\nlevel = \"11 m\"");
    let peak = (bank, "[139.5, 0.3], [205, 60], [240, 3.6]");
    let code = warning(&[peak, ("[140, 0.3], ", ""), boring]);
    assert_eq!(code, ("steep_ground", "/site/ground/8/1".to_owned()));
    usual(bank, "[158, 3.4], [171, 23], [205, 3.5]");
    usual(bank, "[158, 3.4], [181, 26], [212, 3.5]");
}

#[test]
fn an_outside_diameter_off_the_table() {
    let pipe = "dn = 400";
    unusual_line(pipe, "outside_diameter = 400", "/string/outside_diameter");
    usual_line(pipe, "outside_diameter = 410");
    let standard = "standard = \"EN 545\"\ndn = 400\nclass = \"K9\"";
    usual(standard, "standard = \"own\"\ndn = 400\noutside_diameter = 400\nwall = 8.1");
}

#[test]
fn rods_heavier_than_steel_or_hollow() {
    // Solid steel of 89 mm has 48.8 kg/m.
    let mass = "mass_per_length = \"22 kg/m\"";
    unusual(mass, "mass_per_length = 49", "/bore/rods/mass_per_length");
    unusual(mass, "mass_per_length = 4.8", "/bore/rods/mass_per_length");
    usual(mass, "mass_per_length = 48.7");
    usual(mass, "mass_per_length = 5");
    usual("diameter = \"89 mm\"\ninside_diameter = \"70 mm\"\nminimum_radius", "minimum_radius");
}

#[test]
fn pressures_that_no_joint_has() {
    // The usual one of DN 400 is 30 bar.
    let pressure = "pressure = \"30 bar\"";
    unusual(pressure, "pressure = 61", "/string/joint/pressure");
    usual(pressure, "pressure = 60");
    let own = [
        ("standard = \"EN 545\"", "standard = \"own\"\noutside_diameter = 429\nwall = 8.1"),
        (pressure, "pressure = 121"),
    ];
    assert_eq!(warning(&own), ("unusual", "/string/joint/pressure".to_owned()));
    let external = "external_pressure = \"2 bar\"";
    unusual(external, "external_pressure = 20", "/string/joint/external_pressure");
    usual(external, "external_pressure = 10");
}

#[test]
fn expected_values_above_those_of_the_checks() {
    let order = |lines: &str, key: &str| {
        let found = warning(&[("[factors]", &format!("[factors]\n{lines}"))]);
        assert_eq!(found, ("order", format!("/factors/{key}")), "{lines}");
    };
    order("friction_bore_expected = 0.31", "friction_bore_expected");
    // Against a default the message stands at the value that was given.
    order("friction_bore = 0.2", "friction_bore");
    order("fluid_stress_expected = 173", "fluid_stress_expected");
    order("fluid_stress = 40", "fluid_stress");
    usual_line("[factors]", "friction_bore_expected = 0.3\nfluid_stress_expected = 172");
}

#[test]
fn cover_lengths_and_levels_of_another_order() {
    let cover = "required_cover = \"3.7 m\"";
    unusual(cover, "required_cover = 0.37", "/site/required_cover");
    usual(cover, "required_cover = 0.5");
    let extra = "extra_length = \"6 m\"";
    unusual(extra, "extra_length = 300", "/string/extra_length");
    usual(extra, "extra_length = 100");
    let link = "head_link = \"3 m\"";
    unusual(link, "head_link = 11", "/string/head_link");
    usual(link, "head_link = 10");
    // The ends of the demo lie at 4.2 m and 3.6 m.
    let level = "reference_level = \"4.2 m\"";
    unusual(level, "reference_level = 420", "/service/reference_level");
    unusual(level, "reference_level = -197", "/service/reference_level");
    usual(level, "reference_level = 204");
}

#[test]
fn a_socket_that_weighs_nothing() {
    let mass = "socket_mass = \"43 kg\"";
    unusual(mass, "socket_mass = 0", "/string/socket_mass");
    let standard = "standard = \"EN 545\"\ndn = 400\nclass = \"K9\"";
    let own = "standard = \"own\"\noutside_diameter = 429\nwall = 8.1";
    let text = CREEK.replacen(standard, own, 1).replacen(mass, "socket_mass = 0", 1);
    assert!(read_with_warnings("creek.toml", &text).expect("valid").warnings.is_empty());
}

#[test]
fn the_starter_has_no_warning() {
    let reading =
        read_with_warnings("starter.toml", &project::starter(project::Technique::Drilling))
            .expect("valid");
    assert!(reading.warnings.is_empty(), "{:#?}", reading.warnings);
}

#[test]
fn cover_goes_by_the_nominal_size() {
    let cover = |pipe: &str| {
        let standard = "standard = \"EN 545\"\ndn = 400\nclass = \"K9\"";
        let keep = ["socket_diameter = \"510 mm\"\n", "required_cover = \"3.7 m\"\n"];
        let mut text = CREEK.replacen(standard, pipe, 1);
        for line in keep {
            text = text.replacen(line, "", 1);
        }
        text = text.replacen("\"800 mm\"]", "\"1500 mm\"]", 1);
        let project =
            project::read("creek.toml", &text).unwrap_or_else(|e| panic!("{pipe} {e:#?}"));
        let assumed = project.assumptions.iter().find(|a| a.path == "/site/required_cover");
        assert_eq!(assumed.unwrap().source.evidence, working::Evidence::Judgement);
        (project.site.required_cover.to_feet() * 1e6).round() / 1e6
    };
    let awwa = |size: u32| format!("standard = \"AWWA C151\"\nsize = {size}\nclass = \"350 psi\"");
    let en = |dn: u32| format!("standard = \"EN 545\"\ndn = {dn}\nclass = \"K9\"");
    // Outside diameters of 24 in (25.8 in), DN 300 (326 mm) and DN 600 (635 mm) lie in the next row.
    assert_eq!([12, 24, 30].map(|size| cover(&awwa(size))), [8.0, 12.0, 16.0]);
    assert_eq!(
        [80, 100, 300, 400, 600, 700].map(|dn| cover(&en(dn))),
        [4.0, 8.0, 8.0, 12.0, 12.0, 16.0]
    );
    let own = "standard = \"own\"\ndn = 600\noutside_diameter = 635\nwall = 9.9";
    assert_eq!(cover(own), 16.0);
}

#[test]
fn a_number_in_quotes_without_unit_is_in_the_unit_of_its_field() {
    let with = |text: &str| {
        let text = CREEK.replacen("socket_diameter = \"510 mm\"", text, 1);
        project::read("creek.toml", &text).expect("valid").string.pipe.largest_diameter()
    };
    assert_eq!(with("socket_diameter = \"510\""), with("socket_diameter = 510"));
}
