//! The tables embedded in this crate, read once.

use std::sync::OnceLock;

use csv::StringRecord;

use crate::PipeError;

/// One size of EN 545 with its K9 wall; millimetres.
#[derive(Debug)]
pub(crate) struct SizeRow {
    pub dn: u32,
    pub de: f64,
    pub de_tolerance_minus: f64,
    pub k9_nominal: f64,
    pub k9_min: f64,
    pub lining: f64,
    pub lining_tolerance_minus: f64,
}

/// One cell of the pressure classes of EN 545; millimetres.
#[derive(Debug)]
pub(crate) struct ClassRow {
    pub class: String,
    pub dn: u32,
    pub e_min: Option<f64>,
    pub e_nom: Option<f64>,
    pub e_nom_published: bool,
}

/// One size of the trenchless table of restrained joints.
#[derive(Debug)]
pub(crate) struct TrenchlessRow {
    pub dn: u32,
    pub angle_deg: f64,
    pub pull_kn: f64,
    pub radius_m: f64,
    pub pfa_bar: Option<f64>,
    pub remembered_pull_kn: Option<f64>,
    pub fitters: Option<f64>,
    pub minutes: [Option<f64>; 3],
}

/// One size of a published table of joint angles, degrees: unrestrained U1–U3, restrained L1–L5.
#[derive(Debug)]
pub(crate) struct AngleRow {
    pub dn: u32,
    pub unrestrained: [Option<f64>; 3],
    pub restrained: [Option<f64>; 5],
}

/// Least angles that EN 545 asks for, degrees.
#[derive(Debug)]
pub(crate) struct LeastAngleRow {
    pub from: u32,
    pub to: u32,
    pub unrestrained: f64,
    pub restrained: f64,
}

/// One wall of AWWA C151; inches.
#[derive(Debug)]
pub(crate) struct AwwaRow {
    pub size: u32,
    pub od: f64,
    pub class_psi: u32,
    pub wall: f64,
    pub casting_tolerance: f64,
}

/// One US push-on bell; inches.
#[derive(Debug)]
pub(crate) struct BellRow {
    pub size: u32,
    pub bell: f64,
    pub depth: f64,
}

/// One AWWA laying type.
#[derive(Debug)]
pub(crate) struct LayingRow {
    pub number: u32,
    pub soil_modulus_psi: f64,
    pub bedding_angle_deg: f64,
    pub moment: f64,
    pub deflection: f64,
    pub trench: String,
}

/// All embedded tables.
#[derive(Debug)]
pub(crate) struct Data {
    pub sizes: Vec<SizeRow>,
    pub classes: Vec<ClassRow>,
    pub socket_masses: Vec<(u32, f64)>,
    pub trenchless: Vec<TrenchlessRow>,
    pub angles: Vec<AngleRow>,
    pub least_angles: Vec<LeastAngleRow>,
    pub awwa: Vec<AwwaRow>,
    pub bells: Vec<BellRow>,
    pub laying: Vec<LayingRow>,
}

/// The embedded tables.
///
/// # Errors
/// [`PipeError::Table`] if one cannot be read, which the test below rules out for what is
/// committed.
pub(crate) fn data() -> Result<&'static Data, PipeError> {
    static DATA: OnceLock<Result<Data, PipeError>> = OnceLock::new();
    DATA.get_or_init(read_all).as_ref().map_err(Clone::clone)
}

fn read_all() -> Result<Data, PipeError> {
    let sizes = read("en545_k9.csv", include_str!("../data/en545_k9.csv"), |r| {
        Ok(SizeRow {
            dn: r.whole("dn")?,
            de: r.number("de_mm")?,
            de_tolerance_minus: r.number("de_tol_minus_mm")?,
            k9_nominal: r.number("e_nom_mm")?,
            k9_min: r.number("e_min_mm")?,
            lining: r.number("cml_nom_mm")?,
            lining_tolerance_minus: r.number("cml_tol_minus_mm")?,
        })
    })?;
    let text = include_str!("../data/en545_pressure_classes.csv");
    let classes = read("en545_pressure_classes.csv", text, |r| {
        Ok(ClassRow {
            class: r.text("class")?.to_owned(),
            dn: r.whole("dn")?,
            e_min: r.maybe("e_min_mm")?,
            e_nom: r.maybe("e_nom_mm")?,
            e_nom_published: r.text("e_nom_basis")? == "published",
        })
    })?;
    let text = include_str!("../data/en545_socket_mass.csv");
    let socket_masses =
        read("en545_socket_mass.csv", text, |r| Ok((r.whole("dn")?, r.number("socket_mass_kg")?)))?;
    let text = include_str!("../data/restrained_joint_trenchless.csv");
    let trenchless = read("restrained_joint_trenchless.csv", text, |r| {
        Ok(TrenchlessRow {
            dn: r.whole("dn")?,
            angle_deg: r.number("joint_deflection_deg")?,
            pull_kn: r.number("F_A_allow_kN")?,
            radius_m: r.number("R_min_published_m")?,
            pfa_bar: r.maybe("pfa_restrained_mem_bar")?,
            remembered_pull_kn: r.maybe("F_dvgw_mem_kN")?,
            fitters: r.maybe("fitters_mem")?,
            minutes: [
                r.maybe("assembly_min_no_protection_mem")?,
                r.maybe("assembly_min_rubber_sleeve_mem")?,
                r.maybe("assembly_min_shrink_sleeve_mem")?,
            ],
        })
    })?;
    let text = include_str!("../data/joint_deflection_published.csv");
    let angles = read("joint_deflection_published.csv", text, |r| {
        Ok(AngleRow {
            dn: r.whole("dn")?,
            unrestrained: [r.maybe("U1_deg")?, r.maybe("U2_deg")?, r.maybe("U3_deg")?],
            restrained: [
                r.maybe("L1_deg")?,
                r.maybe("L2_deg")?,
                r.maybe("L3_deg")?,
                r.maybe("L4_deg")?,
                r.maybe("L5_deg")?,
            ],
        })
    })?;
    let text = include_str!("../data/en545_min_joint_deflection.csv");
    let least_angles = read("en545_min_joint_deflection.csv", text, |r| {
        Ok(LeastAngleRow {
            from: r.whole("dn_from")?,
            to: r.whole("dn_to")?,
            unrestrained: r.number("unrestrained_min_deg")?,
            restrained: r.number("restrained_min_deg")?,
        })
    })?;
    let awwa = read("awwa_c151.csv", include_str!("../data/awwa_c151.csv"), |r| {
        Ok(AwwaRow {
            size: r.whole("size_in")?,
            od: r.number("od_in")?,
            class_psi: r.whole("pressure_class_psi")?,
            wall: r.number("wall_nom_in")?,
            casting_tolerance: r.number("casting_tol_in")?,
        })
    })?;
    let bells = read("bell_us_pushon.csv", include_str!("../data/bell_us_pushon.csv"), |r| {
        Ok(BellRow {
            size: r.whole("size_in")?,
            bell: r.number("bell_od_in")?,
            depth: r.number("socket_depth_in")?,
        })
    })?;
    let text = include_str!("../data/awwa_c150_laying_types.csv");
    let laying = read("awwa_c150_laying_types.csv", text, |r| {
        Ok(LayingRow {
            number: r.whole("type")?,
            soil_modulus_psi: r.number("E_prime_psi")?,
            bedding_angle_deg: r.number("bedding_angle_deg")?,
            moment: r.number("Kb")?,
            deflection: r.number("Kx")?,
            trench: r.text("trench")?.to_owned(),
        })
    })?;
    Ok(Data {
        sizes,
        classes,
        socket_masses,
        trenchless,
        angles,
        least_angles,
        awwa,
        bells,
        laying,
    })
}

/// One record of a table with the names of its columns.
struct Row<'a> {
    table: &'static str,
    headers: &'a StringRecord,
    record: &'a StringRecord,
}

fn read<T>(
    table: &'static str,
    text: &str,
    row: impl Fn(&Row) -> Result<T, PipeError>,
) -> Result<Vec<T>, PipeError> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    let wrong = |e: csv::Error| PipeError::Table {
        table,
        line: e.position().map_or(0, csv::Position::line),
        what: e.to_string(),
    };
    let headers = reader.headers().map_err(wrong)?.clone();
    reader
        .records()
        .map(|record| row(&Row { table, headers: &headers, record: &record.map_err(wrong)? }))
        .collect()
}

impl Row<'_> {
    fn error(&self, what: String) -> PipeError {
        let line = self.record.position().map_or(0, csv::Position::line);
        PipeError::Table { table: self.table, line, what }
    }

    fn text(&self, column: &str) -> Result<&str, PipeError> {
        self.headers
            .iter()
            .position(|h| h == column)
            .and_then(|i| self.record.get(i))
            .ok_or_else(|| self.error(format!("no column {column}")))
    }

    fn maybe(&self, column: &str) -> Result<Option<f64>, PipeError> {
        match self.text(column)? {
            "" => Ok(None),
            text => quantity::parse_number(text)
                .map(Some)
                .ok_or_else(|| self.error(format!("{column} is no number: {text}"))),
        }
    }

    fn number(&self, column: &str) -> Result<f64, PipeError> {
        self.maybe(column)?.ok_or_else(|| self.error(format!("{column} is empty")))
    }

    fn whole(&self, column: &str) -> Result<u32, PipeError> {
        let text = self.text(column)?;
        text.parse().map_err(|_| self.error(format!("{column} is no whole number: {text}")))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_of_every_embedded_table_is_read() {
        let d = data().expect("embedded tables");
        let rows = [
            ("sizes", d.sizes.len(), 23),
            ("classes", d.classes.len(), 74),
            ("socket masses", d.socket_masses.len(), 14),
            ("trenchless", d.trenchless.len(), 15),
            ("angles", d.angles.len(), 24),
            ("least angles", d.least_angles.len(), 3),
            ("AWWA walls", d.awwa.len(), 57),
            ("bells", d.bells.len(), 17),
            ("laying types", d.laying.len(), 5),
        ];
        for (name, found, expected) in rows {
            assert_eq!(found, expected, "{name}");
        }
    }

    #[test]
    fn a_broken_table_is_an_error_that_names_its_line() {
        let broken = "# source: none\ndn,de_mm\n80,98\n100,wide\n";
        let error = read("broken.csv", broken, |r| Ok((r.whole("dn")?, r.number("de_mm")?)))
            .expect_err("accepted");
        let text = error.to_string();
        assert!(text.contains("broken.csv, line 4: de_mm is no number: wide"), "{text}");
        assert!(read("b.csv", "a,b\n1\n", |r| r.number("a")).is_err());
    }
}
