//! Two host names: one for the phone app and what devices send, one for the office's pages. A page of one is then of
//! another origin than the other's, so that nothing in the app could act in the office in somebody's name.
//!
//! Without names everything is answered under any. Health is answered under all of them.

use axum::extract::{Request, State};
use axum::http::{StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse as _, Redirect, Response};

use super::problem::Problem;

/// The names, without ports, in small letters.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hosts {
    /// Of the phone app and of what devices send.
    pub app: String,
    /// Of the office's pages.
    pub office: String,
}

/// A host's name as it is compared: without its port, in small letters.
pub fn plain(host: &str) -> String {
    let host = host.trim();
    let name = match host.rsplit_once(':') {
        // An IPv6 address has colons of its own, and brackets where a port follows.
        Some((name, port)) if port.bytes().all(|b| b.is_ascii_digit()) && !name.ends_with(':') => name,
        _ => host,
    };
    name.trim_end_matches('.').to_ascii_lowercase()
}

impl Hosts {
    /// The two names.
    ///
    /// # Errors
    /// In words, when they cannot be told apart or are no names.
    pub fn new(app: &str, office: &str) -> Result<Hosts, String> {
        let hosts = Hosts { app: plain(app), office: plain(office) };
        let odd = |host: &str| host.is_empty() || host.contains(['/', ' ', '@', '?', '#']);
        if odd(&hosts.app) || odd(&hosts.office) {
            return Err("--app-host and --office-host take names alone, such as app.example".to_owned());
        }
        if hosts.app == hosts.office {
            return Err("--app-host and --office-host must be two names; with one leave both out".to_owned());
        }
        Ok(hosts)
    }
}

/// The address of the office's pages on a server that devices reach at `url`.
pub fn of_the_pages(hosts: Option<&Hosts>, url: &str) -> String {
    let url = url.trim_end_matches('/');
    let Some((hosts, (scheme, rest))) = hosts.zip(url.split_once("://")) else { return url.to_owned() };
    let name = plain(rest.split('/').next().unwrap_or_default());
    let port = rest.get(name.len()..).unwrap_or_default();
    format!("{scheme}://{}{port}", hosts.office)
}

/// Under which name a path is answered.
#[derive(Debug, PartialEq, Eq)]
enum Of {
    App,
    Office,
    Both,
}

fn of(path: &str) -> Of {
    let under =
        |place: &str| path.strip_prefix(place).is_some_and(|rest| rest.is_empty() || rest.starts_with('/'));
    if under("/office") {
        Of::Office
    } else if path == "/healthz" {
        Of::Both
    } else {
        Of::App
    }
}

/// Lets a request through when what it asks for is of the host it names.
pub async fn keep_apart(State(hosts): State<Hosts>, request: Request, next: Next) -> Response {
    let named = request.headers().get(header::HOST).and_then(|host| host.to_str().ok());
    let named = named.or_else(|| request.uri().authority().map(|authority| authority.as_str()));
    let host = plain(named.unwrap_or_default());
    let path = request.uri().path();
    match of(path) {
        Of::Both => next.run(request).await,
        Of::App if host == hosts.app => next.run(request).await,
        Of::Office if host == hosts.office => next.run(request).await,
        // Whoever types the office's name alone wants its pages.
        Of::App if host == hosts.office && path == "/" => Redirect::temporary("/office/").into_response(),
        _ if host == hosts.app || host == hosts.office => Problem::not_found().into_response(),
        _ => Problem::new(
            StatusCode::MISDIRECTED_REQUEST,
            "other_host",
            "this server answers under other names; see --app-host and --office-host",
        )
        .into_response(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_compared_without_port_and_case() {
        for (given, expected) in [
            ("App.Example:8460", "app.example"),
            ("app.example.", "app.example"),
            ("[::1]:8460", "[::1]"),
            ("::1", "::1"),
            ("127.0.0.1:80", "127.0.0.1"),
        ] {
            assert_eq!(plain(given), expected);
        }
        assert!(Hosts::new("one.example", "ONE.example:443").is_err());
        assert!(Hosts::new("https://one.example", "two.example").is_err());
        assert!(Hosts::new("one.example", "two.example").is_ok());
    }

    #[test]
    fn a_link_to_a_page_names_the_office() {
        let hosts = Hosts::new("app.example", "office.example").ok();
        assert_eq!(of_the_pages(hosts.as_ref(), "https://app.example/"), "https://office.example");
        assert_eq!(of_the_pages(hosts.as_ref(), "http://127.0.0.1:8460"), "http://office.example:8460");
        assert_eq!(of_the_pages(None, "https://one.example/"), "https://one.example");
    }

    #[test]
    fn a_path_is_of_the_office_only_where_it_begins_so() {
        assert_eq!(of("/office"), Of::Office);
        assert_eq!(of("/office/visits/1"), Of::Office);
        assert_eq!(of("/officer"), Of::App);
        assert_eq!(of("/v1/sync"), Of::App);
        assert_eq!(of("/app/office/x"), Of::App);
        assert_eq!(of("/healthz"), Of::Both);
    }
}
