//! AGS4: blocks of GROUP, HEADING, UNIT, TYPE and DATA rows.
//!
//! Groups and headings are those of the standard dictionaries of editions 4.0.3 to 4.2; only what a crossing needs is
//! taken from them. Published: AGS 4.1.1 standard dictionary (names, units, meaning).

use crate::issue::Issues;
use crate::records::{Names, Records};

use self::groups::Groups;

mod groups;
mod rows;
mod water;

/// What an AGS4 file says.
#[derive(Debug, Default)]
pub(crate) struct Ags {
    pub(crate) edition: Option<String>,
    pub(crate) records: Records,
    /// Groups that are passed over, in the order of the file.
    pub(crate) not_read: Vec<String>,
}

/// How AGS4 names what messages speak of.
pub(crate) const NAMES: Names = Names {
    boring: "LOCA_ID",
    list: "group LOCA",
    easting: "LOCA_NATE",
    northing: "LOCA_NATN",
    chainage: "LOCA_CNGE",
    offset: "LOCA_OFFS",
    ground_level: "LOCA_GL",
    final_depth: "LOCA_FDEP",
    top: "GEOL_TOP",
    base: "GEOL_BASE",
    codes: "GEOL_GEOL, GEOL_LEG, or a word in capitals in GEOL_DESC",
    cone_resistance: "SCPT_RES or SCPT_QT",
};

/// A group from which values are taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Group {
    Transmission,
    Locations,
    Geology,
    Spt,
    Cpt,
    WaterStrikes,
    WaterRises,
    Monitoring,
}

impl Group {
    const ALL: [(&'static str, Group); 8] = [
        ("TRAN", Group::Transmission),
        ("LOCA", Group::Locations),
        ("GEOL", Group::Geology),
        ("ISPT", Group::Spt),
        ("SCPT", Group::Cpt),
        ("WSTG", Group::WaterStrikes),
        ("WSTD", Group::WaterRises),
        ("MOND", Group::Monitoring),
    ];

    /// Groups that tell of the file and of instruments, not of the ground; nothing is taken, and nothing is missed.
    const KNOWN: [&'static str; 7] = ["PROJ", "ABBR", "DICT", "UNIT", "TYPE", "SCPG", "MONG"];

    fn find(name: &str) -> Option<Group> {
        Self::ALL.iter().find(|(known, _)| *known == name).map(|(_, group)| *group)
    }

    /// Headings without which its rows mean nothing.
    fn needed(self) -> &'static [&'static str] {
        match self {
            Group::Transmission => &[],
            Group::Locations => &["LOCA_ID"],
            Group::Geology => &["LOCA_ID", "GEOL_TOP", "GEOL_BASE"],
            Group::Spt => &["LOCA_ID", "ISPT_TOP"],
            Group::Cpt => &["LOCA_ID", "SCPT_DPTH"],
            Group::WaterStrikes => &["LOCA_ID", "WSTG_DPTH"],
            Group::WaterRises => &["LOCA_ID", "WSTG_DPTH", "WSTD_POST"],
            Group::Monitoring => &["LOCA_ID", "MOND_TYPE", "MOND_RDNG", "MOND_UNIT"],
        }
    }
}

/// Reads an AGS4 file.
pub(crate) fn read(text: &str, issues: &mut Issues) -> Ags {
    let mut groups = Groups::new(issues);
    for row in crate::fields::Rows::of_lines(text, ',') {
        groups.row(&row);
    }
    groups.finish()
}
