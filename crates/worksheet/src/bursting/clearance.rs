use pull::bursting::{CLEARANCE_PRACTICE, TEN_TIMES, burst_clearance};
use quantity::{Length, unit};

use super::{EXACT, EXPANDER, HOST_INSIDE};
use crate::definition::{Output, Worksheet};
use crate::pulling::refused;
use crate::run::{Failure, Sheet, Values};

pub(super) static BURST_CLEARANCE: Worksheet = Worksheet {
    id: "burst-clearance",
    title: "distances to other lines and the surface, rules of thumb",
    inputs: &[EXPANDER, HOST_INSIDE],
    outputs: &[
        Output::new("expansion", "growth of the hole on the diameter", unit::MM),
        Output::new("separation", "axis to other lines, ten times the expansion", unit::M),
        Output::new("separation_dense", "the same in cobbles and dense ground", unit::M),
        Output::new("cover", "cover, German practice as remembered", unit::M),
        Output::new("parallel", "to parallel lines, the same", unit::M),
        Output::new("crossing", "to crossing and brittle lines, the same", unit::M),
    ],
    source: TEN_TIMES.source(),
    example: &[("expander_diameter", "260 mm"), ("host_inside_diameter", "150 mm")],
    run: run_clearance,
};

fn run_clearance(v: &Values) -> Result<Sheet, Failure> {
    let expander = Length::from_si(v.si("expander_diameter"));
    let host = Length::from_si(v.si("host_inside_diameter"));
    let c = burst_clearance(expander, host).map_err(|e| refused(&BURST_CLEARANCE, &e))?;
    let (read, remembered) = (|| TEN_TIMES.source(), || CLEARANCE_PRACTICE.source());
    let mut w = v.open();
    w.result("a", "growth of the hole", "D_e - d_i", c.expansion.si(), unit::MM, EXACT);
    w.result("S", "to other lines", "10*a", c.separation.si(), unit::M, read());
    let dense = c.separation_dense.si();
    w.result("S_d", "to other lines in dense ground", "20*a", dense, unit::M, read());
    w.result("H", "cover", "10*a", c.cover.si(), unit::M, remembered());
    let formula = "max(3*a, 0.4)";
    w.result("S_p", "to parallel lines", formula, c.parallel.si(), unit::M, remembered());
    let crossing = c.crossing.si();
    w.result("S_c", "to crossing and brittle lines", "5*a", crossing, unit::M, remembered());
    Ok(Sheet::new(
        &[
            ("expansion", c.expansion.si()),
            ("separation", c.separation.si()),
            ("separation_dense", dense),
            ("cover", c.cover.si()),
            ("parallel", c.parallel.si()),
            ("crossing", crossing),
        ],
        w,
    ))
}
