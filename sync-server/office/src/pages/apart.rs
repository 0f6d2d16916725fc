//! Renders pages on separate threads and in limited time.
//!
//! Folding and drawing a record needs processor time. On the server's own threads, two slow pages would delay
//! every sync. Each page is therefore rendered on a thread of its own. A person who has to wait too long is
//! told to try later, and a page that never finishes occupies only one of a few places. The content of pages
//! is decided elsewhere.

use std::sync::Arc;
use std::time::Duration;

use axum::extract::{Request, State};
use axum::middleware::Next;
use axum::response::{IntoResponse as _, Response};

use super::page_error::PageError;
use crate::state::{Office, RequestError};

/// Renders a page on a thread of its own.
pub async fn made_apart(State(office): State<Arc<Office>>, request: Request, next: Next) -> Response {
    let limit = office.limits.page;
    within(limit, &office, request, next).await
}

/// Does work that takes longer than a page, such as a packet, on a thread of its own.
pub async fn made_apart_and_long(
    State(office): State<Arc<Office>>,
    request: Request,
    next: Next,
) -> Response {
    let limit = office.limits.packet;
    within(limit, &office, request, next).await
}

async fn within(limit: Duration, office: &Office, request: Request, next: Next) -> Response {
    let places = Arc::clone(&office.paging);
    let made = async move {
        let place = places.acquire_owned().await.map_err(PageError::failed)?;
        let runtime = tokio::runtime::Handle::current();
        let page = tokio::task::spawn_blocking(move || {
            let page = runtime.block_on(next.run(request));
            // The place is kept until the page is finished, even if nobody waits for it any more.
            drop(place);
            page
        });
        page.await.map_err(|_| PageError::from(RequestError::failed("a page's thread stopped")))
    };
    match tokio::time::timeout(limit, made).await {
        Ok(Ok(page)) => page,
        Ok(Err(refused)) => refused.into_response(),
        Err(_) => PageError::from(RequestError::busy()).into_response(),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::state::tests::office;
    use axum::routing::get;
    use axum::{Router, middleware};
    use tokio::io::{AsyncReadExt as _, AsyncWriteExt as _};

    async fn asked(at: std::net::SocketAddr, path: &str) -> String {
        let mut line = tokio::net::TcpStream::connect(at).await.unwrap();
        let request = format!("GET {path} HTTP/1.1\r\nhost: office\r\nconnection: close\r\n\r\n");
        line.write_all(request.as_bytes()).await.unwrap();
        let mut reply = String::new();
        line.read_to_string(&mut reply).await.unwrap();
        reply
    }

    /// The test uses one thread for everything, so a page rendered on it would block all others.
    #[tokio::test]
    async fn a_page_that_takes_too_long_is_told_so_and_the_others_go_on() {
        let folder = tempfile::tempdir().unwrap();
        let mut office = office(folder.path());
        office.limits.page = Duration::from_millis(400);
        let office = Arc::new(office);
        let apart = middleware::from_fn_with_state(Arc::clone(&office), made_apart);
        let routes = Router::new()
            .route(
                "/slow",
                get(|| async {
                    std::thread::sleep(Duration::from_secs(3));
                    "late"
                }),
            )
            .route(
                "/breaks",
                get(|| async {
                    // As a record might, but without the backtrace, which alone may take longer than a page may.
                    std::panic::resume_unwind(Box::new("broken"));
                    #[allow(unreachable_code)]
                    ""
                }),
            )
            .route("/quick", get(|| async { "here" }))
            .layer(apart);
        let listener = tokio::net::TcpListener::bind("127.0.0.1:0").await.unwrap();
        let at = listener.local_addr().unwrap();
        tokio::spawn(async move { axum::serve(listener, routes).await });
        let began = std::time::Instant::now();
        let slow = tokio::spawn(asked(at, "/slow"));
        tokio::time::sleep(Duration::from_millis(50)).await;
        let quick = asked(at, "/quick").await;
        assert!(quick.starts_with("HTTP/1.1 200") && quick.ends_with("here"), "{quick}");
        assert!(began.elapsed() < Duration::from_millis(1_000), "{:?}", began.elapsed());
        let slow = slow.await.unwrap();
        assert!(slow.starts_with("HTTP/1.1 503"), "{slow}");
        assert!(began.elapsed() < Duration::from_millis(2_500), "{:?}", began.elapsed());
        assert!(asked(at, "/breaks").await.starts_with("HTTP/1.1 500"));
        assert!(asked(at, "/quick").await.starts_with("HTTP/1.1 200"));
    }
}
