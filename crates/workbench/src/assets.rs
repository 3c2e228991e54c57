//! What pages load: style, modules, typeface; inside the program, with a mark of its content in the address.

use axum::extract::Path;
use axum::http::{HeaderMap, HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};

use crate::fault::Refusal;

/// An asset: name, media type, content.
type Asset = (&'static str, &'static str, &'static [u8]);

const JS: &str = "text/javascript; charset=utf-8";

static ALL: &[Asset] = &[
    ("style.css", "text/css; charset=utf-8", include_bytes!("../assets/style.css")),
    ("draw.js", JS, include_bytes!("../assets/draw.js")),
    ("section.js", JS, include_bytes!("../assets/section.js")),
    ("strips.js", JS, include_bytes!("../assets/strips.js")),
    ("plan.js", JS, include_bytes!("../assets/plan.js")),
    ("cross.js", JS, include_bytes!("../assets/cross.js")),
    ("checks.js", JS, include_bytes!("../assets/checks.js")),
    ("forms.js", JS, include_bytes!("../assets/forms.js")),
    ("server.js", JS, include_bytes!("../assets/server.js")),
    ("design.js", JS, include_bytes!("../assets/design.js")),
    ("page.js", JS, include_bytes!("../assets/page.js")),
    ("bench.js", JS, include_bytes!("../assets/bench.js")),
    ("documents.js", JS, include_bytes!("../assets/documents.js")),
    ("text.js", JS, include_bytes!("../assets/text.js")),
    ("SourceSans3-Regular.ttf", "font/ttf", sheets::font::REGULAR),
    ("SourceSans3-SemiBold.ttf", "font/ttf", sheets::font::SEMI_BOLD),
    ("SourceSans3-Italic.ttf", "font/ttf", sheets::font::ITALIC),
];

/// `GET /assets/{name}`: fresh ones are told apart by a mark of their content, so that a new program is never shown with
/// old modules.
pub async fn asset(Path(name): Path<String>, headers: HeaderMap) -> Response {
    let Some((_, media_type, bytes)) = ALL.iter().find(|(n, ..)| *n == name) else {
        return Refusal::not_found("there is no such asset").into_response();
    };
    let mark = format!("\"{:016x}\"", fingerprint(bytes));
    let known = headers.get(header::IF_NONE_MATCH).is_some_and(|h| h.as_bytes() == mark.as_bytes());
    let fonts = *media_type == "font/ttf";
    let cache = if fonts { "max-age=86400" } else { "no-cache" };
    let status = if known { StatusCode::NOT_MODIFIED } else { StatusCode::OK };
    let body: &'static [u8] = if known { &[] } else { bytes };
    let mut response = (status, [(header::CONTENT_TYPE, *media_type)], body).into_response();
    let out = response.headers_mut();
    out.insert(header::CACHE_CONTROL, HeaderValue::from_static(cache));
    if let Ok(value) = HeaderValue::from_str(&mark) {
        out.insert(header::ETAG, value);
    }
    response
}

/// FNV-1a: tells one build's asset from another's; nothing rests on it but a cache.
fn fingerprint(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3)
    })
}
