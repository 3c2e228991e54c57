use super::Metadata;

/// The licences that `deny.toml` allows.
///
/// # Errors
/// When the text is not TOML or has no `[licenses] allow`.
pub fn allowed_licences(text: &str) -> Result<Vec<String>, String> {
    let table: toml::Table = text.parse().map_err(|e: toml::de::Error| e.to_string())?;
    let list = table
        .get("licenses")
        .and_then(|l| l.get("allow"))
        .and_then(toml::Value::as_array)
        .ok_or("deny.toml has no [licenses] allow = [ … ]")?;
    let names: Option<Vec<String>> =
        list.iter().map(|name| name.as_str().map(str::to_owned)).collect();
    names.filter(|n| !n.is_empty()).ok_or_else(|| "[licenses] allow must list names".to_owned())
}

/// Packages of others whose licence the list does not allow.
#[must_use]
pub fn broken_licences(metadata: &Metadata, allowed: &[String]) -> Vec<String> {
    metadata
        .others()
        .filter(|p| !p.license.as_deref().is_some_and(|text| is_allowed(text, allowed)))
        .map(|p| {
            let licence = p.license.as_deref().unwrap_or("no licence at all");
            format!("{} {} is under {licence}", p.name, p.version)
        })
        .collect()
}

/// Whether a licence expression can be met with the allowed licences.
///
/// `AND`, `OR`, parentheses and the old form with a slash for `OR` are read; `X WITH Y` counts as one name, as
/// written, and is also met by `X` alone since an exception only widens what is granted. What cannot be read is not
/// allowed.
#[must_use]
pub fn is_allowed(expression: &str, allowed: &[String]) -> bool {
    let spaced = expression.replace('/', " OR ").replace('(', " ( ").replace(')', " ) ");
    let words: Vec<&str> = spaced.split_whitespace().collect();
    let mut reader = Reader { words: &words, at: 0, allowed };
    reader.any() == Some(true) && reader.at == words.len()
}

struct Reader<'a> {
    words: &'a [&'a str],
    at: usize,
    allowed: &'a [String],
}

impl Reader<'_> {
    fn take(&mut self, word: &str) -> bool {
        let found = self.words.get(self.at) == Some(&word);
        self.at += usize::from(found);
        found
    }

    fn any(&mut self) -> Option<bool> {
        let mut met = self.all()?;
        while self.take("OR") {
            met |= self.all()?;
        }
        Some(met)
    }

    fn all(&mut self) -> Option<bool> {
        let mut met = self.one()?;
        while self.take("AND") {
            met &= self.one()?;
        }
        Some(met)
    }

    fn one(&mut self) -> Option<bool> {
        if self.take("(") {
            let met = self.any()?;
            return self.take(")").then_some(met);
        }
        let name = *self.words.get(self.at)?;
        if matches!(name, ")" | "AND" | "OR" | "WITH") {
            return None;
        }
        self.at += 1;
        let listed = |text: &str| self.allowed.iter().any(|a| a == text);
        let mut met = listed(name);
        if self.words.get(self.at) == Some(&"WITH") {
            let exception = *self.words.get(self.at + 1)?;
            met |= listed(&format!("{name} WITH {exception}"));
            self.at += 2;
        }
        Some(met)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn expressions_are_met_by_choice_and_by_all() {
        let allowed = ["MIT".to_owned(), "Unicode-3.0".to_owned()];
        let met = |text| is_allowed(text, &allowed);
        for good in [
            "MIT",
            "MIT OR Apache-2.0",
            "Apache-2.0/MIT",
            "(MIT OR Apache-2.0) AND Unicode-3.0",
            "MIT WITH LLVM-exception",
            "GPL-3.0 OR (MIT AND Unicode-3.0)",
        ] {
            assert!(met(good), "{good}");
        }
        for bad in [
            "Apache-2.0",
            "MIT AND Apache-2.0",
            "",
            "MIT AND",
            "(MIT",
            "MIT MIT",
            "OR MIT",
            "(MIT OR X) AND GPL-3.0",
        ] {
            assert!(!met(bad), "{bad}");
        }
        assert!(is_allowed("A WITH B", &["A WITH B".to_owned()]));
        assert!(!is_allowed("A WITH B", &["A WITH C".to_owned()]));
    }

    #[test]
    fn list_must_stand_in_the_file() {
        assert_eq!(allowed_licences("[licenses]\nallow = [\"MIT\"]").unwrap(), ["MIT"]);
        assert!(allowed_licences("[licenses]\nallow = []").is_err());
        assert!(allowed_licences("[bans]\nx = 1").is_err());
        assert!(allowed_licences("allow").is_err());
    }
}
