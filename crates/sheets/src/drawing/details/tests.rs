//! Layout and sizes of the detail drawings.
