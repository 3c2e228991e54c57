//! Designs that are drawn.

use std::sync::OnceLock;

use project::Design;
use quantity::System;
use sheets::scene::Drawing;
use sheets::{Issue, Subject};

/// A demo, as it stands.
pub(crate) fn demo(name: &str) -> String {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo/");
    std::fs::read_to_string(format!("{path}{name}")).unwrap()
}

/// A design file, read.
pub(crate) fn design(text: &str) -> Design {
    match project::read_design("test.toml", text, &project::no_files) {
        Ok(reading) => reading.design,
        Err(messages) => panic!("{messages:#?}"),
    }
}

/// A level line of some length and depth, without any ground model.
pub(crate) fn plain(run: f64, depth: f64, angle: f64, radius: f64, obstacles: &str) -> String {
    let creek = demo("creek.toml");
    let string = creek.split("# The pipes, and how").nth(1).unwrap();
    let zone = run * 0.1;
    format!(
        "format = 1\nname = \"Plain\"\n[site]\nground = [[0, 5.0], [{run}, 5.0]]\nrequired_cover = \"0.5 m\"\n\
         end_zone_entry = {zone}\nend_zone_exit = {zone}\n{obstacles}\n[line]\nentry_level = 5.0\nexit_level = 5.0\n\
         run = {run}\nentry_angle = \"{angle} deg\"\nexit_angle = \"{angle} deg\"\nentry_radius = {radius}\n\
         exit_radius = {radius}\nlowest_level = {}\nazimuth = \"330 deg\"\n# {string}",
        5.0 - depth
    )
}

/// The creek with twelve obstacles whose names have sixty characters.
pub(crate) fn crowded() -> String {
    let mut obstacles = String::new();
    for i in 0..12 {
        let name =
            format!("{:0<60}", format!("service number {i} of an owner with a very long name "));
        let at = 20 + 20 * i;
        obstacles.push_str(&format!(
            "[[site.obstacle]]\nname = \"{name}\"\nkind = \"cable\"\nat = \"{at} m\"\nlevel = \"3 m\"\ndiameter = \"100 mm\"\nclearance = \"1 m\"\n"
        ));
    }
    plain(290.0, 11.0, 12.0, 250.0, &obstacles)
}

/// A short line whose end zones overlap, so that cover is asked for nowhere.
pub(crate) fn all_zones() -> String {
    let zone = 12.0 * 0.1;
    plain(12.0, 0.85, 15.0, 20.0, "")
        .replace(&format!("end_zone_entry = {zone}"), "end_zone_entry = 9")
        .replace(&format!("end_zone_exit = {zone}"), "end_zone_exit = 8")
}

/// A design as it was drawn for a reader.
pub(crate) struct Drawn {
    pub(crate) name: &'static str,
    pub(crate) system: System,
    pub(crate) drawings: Vec<Drawing>,
}

/// All designs, drawn once for both readers.
pub(crate) fn drawn() -> &'static [Drawn] {
    static ONCE: OnceLock<Vec<Drawn>> = OnceLock::new();
    ONCE.get_or_init(|| {
        let of = |(name, design): &(&'static str, Design)| {
            [System::Metric, System::Customary].map(|system| Drawn {
                name,
                system,
                drawings: drawings(design, system),
            })
        };
        all().iter().flat_map(of).collect()
    })
}

/// All designs with a name for messages.
pub(crate) fn all() -> Vec<(&'static str, Design)> {
    let creek = demo("creek.toml");
    vec![
        ("creek", design(&creek)),
        ("creek-fails", design(&demo("creek-fails.toml"))),
        ("starter", design(&project::starter(project::Technique::Drilling))),
        ("long", design(&plain(3000.0, 40.0, 12.0, 400.0, ""))),
        ("short", design(&plain(12.0, 0.85, 15.0, 20.0, ""))),
        ("plain", design(&plain(290.0, 11.0, 12.0, 250.0, ""))),
        ("crowded", design(&crowded())),
        ("all-zones", design(&all_zones())),
    ]
}

/// The drawings of a design.
pub(crate) fn drawings(design: &Design, system: System) -> Vec<Drawing> {
    let subject = Subject::new(design, "test.toml", Issue::default(), system);
    sheets::drawing::drawings(&subject)
}
