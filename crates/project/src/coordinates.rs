//! Where a design lies in a projected grid.

use quantity::Length;

/// Where a drilled crossing lies: the grid, and the entry point in it.
///
/// The line's azimuth counts from grid north, so that the place of any point of it follows by adding what it lies east
/// and north of the entry point. No scale of the grid is applied: distances of the line are distances of the grid.
#[derive(Debug, Clone, PartialEq)]
pub struct Coordinates {
    /// Code of the grid in the EPSG register.
    pub epsg: u32,
    /// Easting of the entry point.
    pub easting: Length,
    /// Northing of the entry point.
    pub northing: Length,
    /// Name of the datum of all levels.
    pub datum: Option<String>,
}

impl Coordinates {
    /// Easting and northing of a point that lies so far east and north of the entry point.
    #[must_use]
    pub fn of(&self, east: Length, north: Length) -> (Length, Length) {
        (self.easting + east, self.northing + north)
    }
}

/// Where an old main lies: the grid, and points along it.
#[derive(Debug, Clone, PartialEq)]
pub struct HostCoordinates {
    /// Code of the grid in the EPSG register.
    pub epsg: u32,
    /// Points in the order of the chainage, at least two; they cover the axis of the old main.
    pub points: Vec<HostPoint>,
    /// Name of the datum of all levels.
    pub datum: Option<String>,
}

/// A point of an old main.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HostPoint {
    /// Its chainage.
    pub chainage: Length,
    /// Its easting.
    pub easting: Length,
    /// Its northing.
    pub northing: Length,
}

impl HostCoordinates {
    /// Easting and northing at a chainage, straight between the points; `None` beyond them.
    #[must_use]
    pub fn at(&self, chainage: Length) -> Option<(Length, Length)> {
        self.points.windows(2).find_map(|pair| {
            let [a, b] = pair else { return None };
            if chainage < a.chainage || chainage > b.chainage {
                return None;
            }
            let share = (chainage - a.chainage) / (b.chainage - a.chainage);
            let between = |a: Length, b: Length| a + (b - a) * share;
            Some((between(a.easting, b.easting), between(a.northing, b.northing)))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_lie_between_the_points_and_nowhere_else() {
        let point = |x, e, n| HostPoint {
            chainage: Length::from_si(x),
            easting: Length::from_si(e),
            northing: Length::from_si(n),
        };
        let host = HostCoordinates {
            epsg: 32631,
            points: vec![
                point(-5.0, 100.0, 50.0),
                point(5.0, 110.0, 50.0),
                point(25.0, 110.0, 70.0),
            ],
            datum: None,
        };
        let at = |x| host.at(Length::from_si(x)).map(|(e, n)| (e.si(), n.si()));
        assert_eq!(at(-5.0), Some((100.0, 50.0)));
        assert_eq!(at(0.0), Some((105.0, 50.0)));
        assert_eq!(at(15.0), Some((110.0, 60.0)));
        assert_eq!(at(25.0), Some((110.0, 70.0)));
        assert_eq!((at(-5.1), at(25.1)), (None, None));
    }
}
