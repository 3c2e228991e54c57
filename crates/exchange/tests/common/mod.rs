//! Files with single lines changed, and what the reader says of them.
#![allow(dead_code)]

use exchange::{DataIssue, GroundData, Severity, read_ground};

/// A small AGS4 file without fault; its lines are counted in the tests.
pub const AGS: &str = r#""GROUP","PROJ"
"HEADING","PROJ_ID","PROJ_NAME"
"UNIT","",""
"TYPE","ID","X"
"DATA","X","Invented"

"GROUP","TRAN"
"HEADING","TRAN_ISNO","TRAN_AGS"
"UNIT","",""
"TYPE","X","X"
"DATA","1","4.1.1"

"GROUP","LOCA"
"HEADING","LOCA_ID","LOCA_NATE","LOCA_NATN","LOCA_GL","LOCA_FDEP"
"UNIT","","m","m","m","m"
"TYPE","ID","2DP","2DP","2DP","2DP"
"DATA","BH1","100.00","200.00","4.00","10.00"
"DATA","BH2","150.00","210.00","3.50","10.00"

"GROUP","GEOL"
"HEADING","LOCA_ID","GEOL_TOP","GEOL_BASE","GEOL_DESC","GEOL_LEG","GEOL_GEOL"
"UNIT","","m","m","","",""
"TYPE","ID","2DP","2DP","X","PA","PA"
"DATA","BH1","0.00","2.00","Soft CLAY","201","ALV"
"DATA","BH1","2.00","10.00","Dense SAND","401",""
"DATA","BH2","0.00","10.00","Stiff CLAY","",""

"GROUP","ISPT"
"HEADING","LOCA_ID","ISPT_TOP","ISPT_NVAL","ISPT_REP","ISPT_ERAT","ISPT_N60"
"UNIT","","m","","","%",""
"TYPE","ID","2DP","0DP","X","0DP","0DP"
"DATA","BH1","1.00","4","1,1/1,1,1,1 N=4","66","4"
"DATA","BH1","5.00","30","","",""

"GROUP","SCPT"
"HEADING","LOCA_ID","SCPG_TESN","SCPT_DPTH","SCPT_RES","SCPT_FRES","SCPT_PWP2"
"UNIT","","","m","MPa","MPa","MPa"
"TYPE","ID","X","2DP","3DP","4DP","4DP"
"DATA","BH2","1","1.00","1.500","0.0800","0.0100"
"DATA","BH2","1","1.02","1.600","0.0810","0.0110"

"GROUP","WSTG"
"HEADING","LOCA_ID","WSTG_DPTH"
"UNIT","","m"
"TYPE","ID","2DP"
"DATA","BH1","3.00"

"GROUP","WSTD"
"HEADING","LOCA_ID","WSTG_DPTH","WSTD_NMIN","WSTD_POST"
"UNIT","","m","min","m"
"TYPE","ID","2DP","0DP","2DP"
"DATA","BH1","3.00","5","2.60"
"DATA","BH1","3.00","20","2.20"

"GROUP","MOND"
"HEADING","LOCA_ID","MOND_TYPE","MOND_RDNG","MOND_UNIT"
"UNIT","","","",""
"TYPE","ID","PA","XN","PU"
"DATA","BH1","WDEP","2.10","m"
"DATA","BH1","WDEP","Dry","m"
"DATA","BH1","TEMP","12","DegC"

"GROUP","SAMP"
"HEADING","LOCA_ID","SAMP_TOP"
"UNIT","","m"
"TYPE","ID","2DP"
"DATA","BH9","1.00","too","many"
"#;

/// A small table without fault.
pub const TABLE: &str = "# invented
row,boring,chainage [m],offset [m],level [m],depth [m],top [m],base [m],soil,legend,description,n,energy [%],qc [MPa],fs [kPa]
boring,BH1,10,-2.5,4.0,10
boring,BH2,60,3,3.5,10
stratum,BH1,,,,,0,2,ALV,201,Soft CLAY
stratum,BH1,,,,,2,10,,,Dense SAND
stratum,BH2,,,,,0,10,STC,,Stiff CLAY
spt,BH1,,,,1.00,,,,,,4,66
spt,BH1,,,,5.00,,,,,,50/75 mm
cpt,BH2,,,,1.00,,,,,,,,1.5,80
water,BH1,,,,2.1
strike,BH1,,,,3
";

/// The text with lines, counted from 1, replaced; a replacement may hold several lines or none.
pub fn with(text: &str, changes: &[(usize, &str)]) -> String {
    let mut changed = String::new();
    for (index, line) in text.lines().enumerate() {
        let change = changes.iter().find(|(number, _)| *number == index + 1);
        changed.push_str(change.map_or(line, |(_, new)| new));
        changed.push('\n');
    }
    changed
}

/// Reads a file that must be without error.
pub fn read(text: &str) -> GroundData {
    read_ground("x", text.as_bytes()).unwrap_or_else(|list| panic!("{}", shown(&list)))
}

/// All messages on a file, whether it can be used or not.
pub fn issues(text: &str) -> Vec<DataIssue> {
    match read_ground("x", text.as_bytes()) {
        Ok(data) => data.warnings,
        Err(list) => {
            assert!(list.iter().any(|i| i.severity == Severity::Error), "{}", shown(&list));
            list
        }
    }
}

/// Whether a message is an error, its code, its line.
pub fn codes(list: &[DataIssue]) -> Vec<(char, &'static str, usize)> {
    let letter = |i: &DataIssue| if i.severity == Severity::Error { 'E' } else { 'W' };
    list.iter().map(|i| (letter(i), i.code, i.line)).collect()
}

pub fn shown(list: &[DataIssue]) -> String {
    list.iter().map(|i| format!("{}: {i}\n", i.code)).collect()
}

/// Holds that a changed file gets these messages and no others, whichever way its lines end.
pub fn check(text: &str, expected: &[(char, &'static str, usize)]) {
    for end in ["\n", "\r\n", "\r"] {
        let list = issues(&text.replace('\n', end));
        assert_eq!(codes(&list), expected, "{end:?}\n{}", shown(&list));
    }
}
