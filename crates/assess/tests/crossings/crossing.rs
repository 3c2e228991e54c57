//! A crossing that passes every check, and ways to change and assess it.

use assess::{Assessment, Status, assess};

pub(crate) const CROSSING: &str = r#"
format = 1
name = "test crossing"

[site]
ground = [[0, 4.0], [290, 4.0]]
required_cover = "3.7 m"
groundwater_level = "1.0 m"

[[site.obstacle]]
name = "ditch"
kind = "watercourse"
from = 120
to = 150
underside = "1.0 m"
clearance = "3 m"

[line]
run = "290 m"
entry_level = "4.0 m"
exit_level = "4.0 m"
entry_angle = "11 deg"
exit_angle = "9 deg"
entry_radius = "250 m"
exit_radius = "250 m"
lowest_level = "-7.5 m"

[string]
standard = "EN 545"
dn = 400
class = "K9"
laying_length = "6 m"
coating = "fibre mortar"
contents = "part"
ballast_share = 0.6
assembly = "string"
support = "rollers"

[[ground.soil]]
name = "sand"
kind = "dense sand"

[[ground.boring]]
name = "B1"
chainage = "5 m"
offset = "8 m"
strata = [["sand", 25]]

[[ground.boring]]
name = "B2"
chainage = "150 m"
offset = "8 m"
strata = [["sand", 25]]

[[ground.boring]]
name = "B3"
chainage = "285 m"
offset = "8 m"
strata = [["sand", 25]]

[bore]
pilot_diameter = "250 mm"
ream = ["450 mm", "850 mm"]

[bore.rods]
length = "6 m"
diameter = "101 mm"
permitted_pull = "800 kN"
mass_per_length = "25 kg/m"
inside_diameter = "80 mm"

[bore.pilot]
nozzles = 3
nozzle_diameter = "12 mm"

[bore.reaming]
nozzles = 10
nozzle_diameter = "10 mm"

[fluid]
density = "1150 kg/m3"
gel_strength = "8 Pa"

[fluid.readings]
r600 = 42
r300 = 30
r100 = 19
r6 = 9
r3 = 8

[rig]
pullback = "600 kN"

[rig.pump]
capacity = "800 l/min"
pressure = "60 bar"

[service]
operating_pressure = "8 bar"
maximum_design_pressure = "10 bar"
test_pressure = "15 bar"
"#;

pub(crate) fn run(text: &str) -> Assessment {
    let project = project::read("test.toml", text).unwrap_or_else(|errors| panic!("{errors:#?}"));
    assess(&project)
}

pub(crate) fn with(from: &str, to: &str) -> String {
    assert!(CROSSING.contains(from), "{from} is not in the crossing");
    CROSSING.replace(from, to)
}

pub(crate) fn utilisation(a: &Assessment, id: &str) -> f64 {
    a.check(id).and_then(|c| c.utilisation).unwrap_or_else(|| panic!("{id} has no utilisation"))
}

pub(crate) fn status(a: &Assessment, id: &str) -> Status {
    a.check(id).unwrap_or_else(|| panic!("no check {id}")).status
}
