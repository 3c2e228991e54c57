//! Where the typesetting library is touched: fonts, files in memory, and the way from a template to PDF.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use sheets::{Date, font};
use typst::diag::{FileError, FileResult, SourceDiagnostic};
use typst::foundations::{Bytes, Datetime, Duration, Smart};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World, WorldExt};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};
use typst_syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};

use crate::BookError;

/// Text, then formulas, then ids of checks and letters that the others lack. Licences stand in `fonts`.
static FONTS: LazyLock<Vec<Font>> = LazyLock::new(|| {
    let files: [&'static [u8]; 5] = [
        font::REGULAR,
        font::SEMI_BOLD,
        font::ITALIC,
        include_bytes!("../fonts/NewCMMath-Regular.otf"),
        include_bytes!("../fonts/DejaVuSansMono.ttf"),
    ];
    files.into_iter().flat_map(|file| Font::iter(Bytes::new(file))).collect()
});

static BOOK: LazyLock<LazyHash<FontBook>> =
    LazyLock::new(|| LazyHash::new(FontBook::from_fonts(FONTS.iter())));

static LIBRARY: LazyLock<LazyHash<Library>> = LazyLock::new(|| LazyHash::new(Library::default()));

/// Whether a font has a sign for a character.
pub(crate) fn has_sign(c: char) -> bool {
    FONTS.iter().any(|font| font.info().coverage.contains(u32::from(c)))
}

/// A template with the files that it reads.
pub(crate) struct Work {
    main: Source,
    files: BTreeMap<String, Bytes>,
}

impl Work {
    /// A template that reads nothing yet.
    pub(crate) fn new(template: &str) -> Result<Self, BookError> {
        let path = VirtualPath::new("main.typ")
            .map_err(|error| BookError::Preparing(format!("{error:?}")))?;
        let id = RootedPath::new(VirtualRoot::Project, path).intern();
        Ok(Self { main: Source::new(id, template.to_owned()), files: BTreeMap::new() })
    }

    /// Adds a file that the template reads by name.
    pub(crate) fn put(&mut self, name: impl Into<String>, bytes: Vec<u8>) {
        self.files.insert(name.into(), Bytes::new(bytes));
    }

    /// Adds the data of the template as `data.json`.
    pub(crate) fn put_data(&mut self, data: &serde_json::Value) -> Result<(), BookError> {
        let bytes =
            serde_json::to_vec(data).map_err(|error| BookError::Preparing(error.to_string()))?;
        self.put("data.json", bytes);
        Ok(())
    }

    /// Sets the pages and writes them: PDF/A-2b where the day of the issue is known, which that standard asks for, plain
    /// PDF otherwise and where the standard refuses a sign of the user's texts.
    pub(crate) fn pdf(&self, ident: &str, date: Option<Date>) -> Result<Vec<u8>, BookError> {
        let made = self.made(ident, date);
        // The library's memory is global and grows with every document.
        typst::comemo::evict(0);
        made
    }

    fn made(&self, ident: &str, date: Option<Date>) -> Result<Vec<u8>, BookError> {
        let document = typst::compile::<PagedDocument>(self)
            .output
            .map_err(|errors| BookError::Setting(self.messages(&errors)))?;
        let options = |standards| PdfOptions {
            ident: Smart::Custom(ident.to_owned()),
            creator: Smart::Custom(Some(format!("underhaul {}", env!("CARGO_PKG_VERSION")))),
            standards,
            ..PdfOptions::default()
        };
        let archive = date.and_then(|_| PdfStandards::new(&[PdfStandard::A_2b]).ok());
        if let Some(bytes) =
            archive.and_then(|standards| typst_pdf::pdf(&document, &options(standards)).ok())
        {
            return Ok(bytes);
        }
        typst_pdf::pdf(&document, &options(PdfStandards::default()))
            .map_err(|errors| BookError::Writing(self.messages(&errors)))
    }

    fn messages(&self, errors: &[SourceDiagnostic]) -> Vec<String> {
        let place = |error: &SourceDiagnostic| {
            let range = self.range(error.span)?;
            self.main.lines().byte_to_line(range.start).map(|line| line + 1)
        };
        errors
            .iter()
            .map(|error| match place(error) {
                Some(line) => format!("line {line} of the template: {}", error.message),
                None => error.message.to_string(),
            })
            .collect()
    }
}

/// No disk, no network, no clock.
impl World for Work {
    fn library(&self) -> &LazyHash<Library> {
        &LIBRARY
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &BOOK
    }

    fn main(&self) -> FileId {
        self.main.id()
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        if id == self.main.id() { Ok(self.main.clone()) } else { Err(FileError::AccessDenied) }
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        let name = id.vpath().get_without_slash();
        self.files.get(name).cloned().ok_or(FileError::AccessDenied)
    }

    fn font(&self, index: usize) -> Option<Font> {
        FONTS.get(index).cloned()
    }

    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}
