//! Who issues a document, when and as which revision.

/// What a title block says about the issue of a document; all of it comes from the user.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Issue {
    /// Day of the issue.
    pub date: Option<Date>,
    /// Revision, as `A` or `2`.
    pub revision: Option<String>,
    /// Who made it.
    pub author: Option<String>,
}

/// A day of the Gregorian calendar.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date {
    year: u16,
    month: u8,
    day: u8,
}

/// Why an issue cannot be used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum IssueError {
    /// The text is not a day.
    #[error(
        "\"{0}\" is not a day: year, month and day are allowed, as 2026-05-31, from 1900 to 2999"
    )]
    Date(String),
}

impl Date {
    /// Year, month from 1, day from 1.
    #[must_use]
    pub const fn parts(self) -> (u16, u8, u8) {
        (self.year, self.month, self.day)
    }
}

impl std::fmt::Display for Date {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

/// Reads `2026-05-31` (ISO 8601).
impl std::str::FromStr for Date {
    type Err = IssueError;

    fn from_str(text: &str) -> Result<Self, IssueError> {
        let refused = || IssueError::Date(text.to_owned());
        let parts: Vec<&str> = text.split('-').collect();
        let [year, month, day] = parts.as_slice() else { return Err(refused()) };
        let digits = |part: &str, count: usize| {
            (part.len() == count && part.bytes().all(|b| b.is_ascii_digit()))
                .then(|| part.parse::<u16>().ok())
                .flatten()
                .ok_or_else(refused)
        };
        let (year, month, day) = (digits(year, 4)?, digits(month, 2)?, digits(day, 2)?);
        let leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
        let last = match month {
            2 if leap => 29,
            2 => 28,
            4 | 6 | 9 | 11 => 30,
            1..=12 => 31,
            _ => return Err(refused()),
        };
        if !(1900..=2999).contains(&year) || !(1..=last).contains(&day) {
            return Err(refused());
        }
        let short = |n: u16| u8::try_from(n).map_err(|_| refused());
        Ok(Self { year, month: short(month)?, day: short(day)? })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_of_the_calendar_are_read_and_others_refused() {
        for good in ["2026-11-25", "2024-02-29", "2000-02-29", "1900-12-31"] {
            assert_eq!(good.parse::<Date>().unwrap().to_string(), good);
        }
        for bad in [
            "",
            "2026",
            "2026-13-01",
            "2026-00-01",
            "2026-04-31",
            "2023-02-29",
            "1900-02-29",
            "2026-1-1",
            "25.11.2026",
            "2026-11-25T00:00",
            "+026-11-25",
            "3000-01-01",
            "２０２６-01-01",
        ] {
            assert_eq!(bad.parse::<Date>(), Err(IssueError::Date(bad.to_owned())), "{bad}");
        }
    }
}
