//! What protects the pages: no foreign page may write here, nothing foreign may run here.

use axum::extract::Request;
use axum::http::{HeaderMap, HeaderName, HeaderValue, Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

use crate::fault::{Fault, Refusal};

/// Everything comes from the program itself; pages are never shown inside others.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; \
     img-src 'self' data:; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

/// Largest body of a request: a design with its files of borings.
pub const LARGEST_BODY: usize = 12_000_000;

/// Refuses requests that another site's page sent, and marks every answer.
pub async fn guard(request: Request, next: Next) -> Response {
    let reads = matches!(*request.method(), Method::GET | Method::HEAD);
    let upgrade = request.headers().contains_key(header::UPGRADE);
    if let Err(refusal) = own_host(request.headers())
        .and_then(|()| if reads && !upgrade { Ok(()) } else { own_origin(request.headers()) })
    {
        return marked(refusal.into_response());
    }
    marked(next.run(request).await)
}

fn marked(mut response: Response) -> Response {
    let headers = response.headers_mut();
    for (name, value) in [
        (header::CONTENT_SECURITY_POLICY, POLICY),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (header::REFERRER_POLICY, "no-referrer"),
        (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
        (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
    ] {
        headers.insert(name, HeaderValue::from_static(value));
    }
    if !headers.contains_key(header::CACHE_CONTROL) {
        headers.insert(header::CACHE_CONTROL, HeaderValue::from_static("no-store"));
    }
    response
}

/// The name under which the browser asked must be this machine or an address: a name that someone else's server resolves
/// to this machine is refused.
fn own_host(headers: &HeaderMap) -> Result<(), Refusal> {
    let host = headers.get(header::HOST).and_then(|h| h.to_str().ok()).unwrap_or("");
    if is_own(host) {
        return Ok(());
    }
    let fault = Fault::new("foreign_host", "", "the address names another host")
        .found(host)
        .allowed("localhost or the number of this machine in the network");
    Err(Refusal::one(StatusCode::MISDIRECTED_REQUEST, fault))
}

/// Whether a host with port is `localhost` or an IP address.
fn is_own(host: &str) -> bool {
    let name = match host.rsplit_once(':') {
        Some((name, port)) if port.bytes().all(|b| b.is_ascii_digit()) => name,
        _ => host,
    };
    let name = name.trim_start_matches('[').trim_end_matches(']');
    name == "localhost" || name.parse::<std::net::IpAddr>().is_ok()
}

/// A write must come from a page of this program, or from a program that says no origin.
fn own_origin(headers: &HeaderMap) -> Result<(), Refusal> {
    let text = |name| headers.get(name).and_then(|h: &HeaderValue| h.to_str().ok());
    let Some(origin) = text(header::ORIGIN) else { return Ok(()) };
    let host = text(header::HOST).unwrap_or("");
    let own = ["http://", "https://"]
        .iter()
        .any(|scheme| origin.strip_prefix(scheme).is_some_and(|rest| rest == host));
    if own {
        return Ok(());
    }
    let fault =
        Fault::new("foreign_origin", "", "a page of another site sent this request").found(origin);
    Err(Refusal::one(StatusCode::FORBIDDEN, fault))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_this_machine_is_a_host() {
        for own in ["localhost", "localhost:8080", "127.0.0.1:80", "[::1]:8080", "192.168.1.5"] {
            assert!(is_own(own), "{own}");
        }
        for foreign in
            ["", "example.org", "localhost.example.org:80", "127.0.0.1.example.org", "a:b"]
        {
            assert!(!is_own(foreign), "{foreign}");
        }
    }

    #[test]
    fn a_foreign_page_may_not_write() {
        let headers = |origin: Option<&'static str>| {
            let mut map = HeaderMap::new();
            map.insert(header::HOST, HeaderValue::from_static("127.0.0.1:7000"));
            if let Some(origin) = origin {
                map.insert(header::ORIGIN, HeaderValue::from_static(origin));
            }
            map
        };
        assert!(own_origin(&headers(None)).is_ok());
        assert!(own_origin(&headers(Some("http://127.0.0.1:7000"))).is_ok());
        for foreign in
            ["null", "http://127.0.0.1:7001", "https://example.org", "http://127.0.0.1:7000.a"]
        {
            assert!(own_origin(&headers(Some(foreign))).is_err(), "{foreign}");
        }
    }
}
