//! With two host names configured, answers each path only under the host name it belongs to.

use axum::extract::{Request, State};
use axum::http::{StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse as _, Redirect, Response};

use crate::state::hosts::{Hosts, plain};
use crate::state::request_error::RequestError;

/// The host name under which a path is answered.
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

/// Passes on a request if its path belongs to the host name it was sent to.
pub async fn keep_apart(State(hosts): State<Hosts>, request: Request, next: Next) -> Response {
    let named = request.headers().get(header::HOST).and_then(|host| host.to_str().ok());
    let named = named.or_else(|| request.uri().authority().map(|authority| authority.as_str()));
    let host = plain(named.unwrap_or_default());
    let path = request.uri().path();
    match of(path) {
        Of::Both => next.run(request).await,
        Of::App if host == hosts.app => next.run(request).await,
        Of::Office if host == hosts.office => next.run(request).await,
        // Somebody who types only the office's host name wants the office's pages.
        Of::App if host == hosts.office && path == "/" => Redirect::temporary("/office/").into_response(),
        _ if host == hosts.app || host == hosts.office => RequestError::not_found().into_response(),
        _ => RequestError::new(
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
    use crate::state::hosts::of_the_pages;

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
