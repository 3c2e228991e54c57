//! From a projected grid to longitude and latitude, for display only.

use proj4rs::Proj;
use proj4rs::transform::transform;

/// Largest difference between a place and itself after the way to WGS 84 and back, m.
const THERE_AND_BACK: f64 = 0.01;

/// A projected grid of the EPSG register.
pub(super) struct Grid {
    epsg: u32,
    proj: Proj,
    wgs84: Proj,
    definition: &'static str,
    name: &'static str,
}

impl Grid {
    /// The grid of a code.
    pub(super) fn find(epsg: u32) -> Result<Self, String> {
        let unknown = || format!("no grid with the code EPSG:{epsg} is known here");
        let code = u16::try_from(epsg).map_err(|_| unknown())?;
        let found = crs_definitions::from_code(code).ok_or_else(unknown)?;
        let unusable =
            |e: proj4rs::errors::Error| format!("the grid EPSG:{epsg} cannot be used here: {e}");
        let proj = Proj::from_proj_string(found.proj4).map_err(unusable)?;
        if proj.is_latlong() || proj.is_geocent() {
            return Err(format!(
                "EPSG:{epsg} is no projected grid: easting and northing have no place in it"
            ));
        }
        if !proj.is_normalized_axis() {
            return Err(format!("the axes of EPSG:{epsg} do not run east and north"));
        }
        let wgs84 =
            Proj::from_proj_string("+proj=longlat +datum=WGS84 +no_defs").map_err(unusable)?;
        let name = found.wkt.split('"').nth(1).unwrap_or_default();
        Ok(Self { epsg, proj, wgs84, definition: found.proj4, name })
    }

    /// Metres in the unit of the grid.
    pub(super) fn metres(&self) -> f64 {
        self.proj.to_meter()
    }

    /// `EPSG:25832, ETRS89 / UTM zone 32N`
    pub(super) fn title(&self) -> String {
        format!("EPSG:{}, {}", self.epsg, self.name)
    }

    /// How longitude and latitude were found.
    pub(super) fn way(&self) -> String {
        let datum = |name: &str| self.definition.contains(&format!("+datum={name}"));
        let shift = if datum("WGS84") {
            "its datum is WGS 84"
        } else if self.definition.contains("+towgs84=0,0,0") || datum("NAD83") {
            "its datum is taken as WGS 84"
        } else if self.definition.contains("+towgs84=") || self.definition.contains("+datum=") {
            "datum shift by three or seven parameters, good to some metres"
        } else {
            "no datum shift is known, its datum is taken as WGS 84"
        };
        format!("{}; {shift}; no grid of datum shifts was used", self.definition)
    }

    /// Longitude and latitude in degrees of a place in metres.
    pub(super) fn lon_lat(&self, easting: f64, northing: f64) -> Result<(f64, f64), String> {
        let outside = || {
            format!(
                "easting {easting} m, northing {northing} m does not lie in the grid EPSG:{}",
                self.epsg
            )
        };
        let unit = self.metres();
        let mut place = (easting / unit, northing / unit, 0.0);
        transform(&self.proj, &self.wgs84, &mut place).map_err(|_| outside())?;
        let (lon, lat) = (place.0.to_degrees(), place.1.to_degrees());
        let mut back = place;
        transform(&self.wgs84, &self.proj, &mut back).map_err(|_| outside())?;
        let off = (back.0 * unit - easting).hypot(back.1 * unit - northing);
        let holds = lon.abs() <= 180.0 && lat.abs() <= 90.0 && off <= THERE_AND_BACK;
        holds.then_some((lon, lat)).ok_or_else(outside)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Longitudes and latitudes by pyproj 3.7.2 with PROJ 9.5.1, an independent implementation; input in the unit of the
    /// grid. The tolerance in degrees is 1e-9 (0.1 mm) where no datum shift is made.
    const OUTSIDE: [(u32, f64, f64, f64, f64); 7] = [
        (25832, 500_000.0, 5_500_000.0, 9.0, 49.652_542_923_557),
        (25832, 650_000.5, 5_800_000.25, 11.201_334_919_720, 52.329_785_189_661),
        (32631, 500_290.0, 100_100.0, 3.002_606_480_201, 0.905_635_342_714),
        (2225, 6_561_666.667, 1_640_416.667, -122.0, 39.333_333_333_333),
        (2225, 6_000_000.0, 2_000_000.0, -124.014_007_460_928, 40.302_673_588_140),
        (2154, 700_000.0, 6_600_000.0, 3.0, 46.5),
        (32733, 300_000.0, 6_300_000.0, 12.848_967_313_846, -33.420_738_490_322),
    ];

    #[test]
    fn places_agree_with_an_independent_implementation() {
        for (epsg, east, north, lon, lat) in OUTSIDE {
            let grid = Grid::find(epsg).unwrap();
            let (a, b) = grid.lon_lat(east * grid.metres(), north * grid.metres()).unwrap();
            assert!((a - lon).abs() < 2e-9 && (b - lat).abs() < 2e-9, "{epsg}: {a} {b}");
        }
        assert!((Grid::find(2225).unwrap().metres() - 1200.0 / 3937.0).abs() < 1e-15);
    }

    #[test]
    fn a_datum_shift_by_parameters_is_named_and_good_to_some_metres() {
        // pyproj as above; the best shift there uses a grid.
        let grid = Grid::find(27700).unwrap();
        let (lon, lat) = grid.lon_lat(400_000.0, 100_000.0).unwrap();
        assert!((lon + 2.001_367_116_624).abs() < 1e-4 && (lat - 50.799_560_607_059).abs() < 1e-4);
        assert!(grid.way().contains("parameters"), "{}", grid.way());
    }

    #[test]
    fn what_is_no_grid_is_refused_with_a_reason() {
        for (epsg, words) in
            [(4326, "no projected grid"), (1024, "no grid with"), (32_767, "no grid with")]
        {
            let reason = Grid::find(epsg).err().unwrap();
            assert!(reason.contains(words), "{reason}");
        }
        let grid = Grid::find(32631).unwrap();
        assert!(grid.title().contains("UTM zone 31N"), "{}", grid.title());
        assert!(grid.lon_lat(9e7, 5e7).unwrap_err().contains("does not lie in the grid"));
    }
}
