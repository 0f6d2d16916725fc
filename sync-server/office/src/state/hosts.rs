//! Two host names, one for the phone app and sync, one for the office's pages. The two then have different
//! origins, so that code in the app cannot act on the office's pages in a signed-in person's name.
//!
//! Without configured names, everything is served under every name. Health is always served under all names.

/// The two host names, without ports and in lower case.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hosts {
    /// The host name of the phone app and of sync.
    pub app: String,
    /// The host name of the office's pages.
    pub office: String,
}

/// Returns a host name for comparison: without its port and in lower case.
pub fn plain(host: &str) -> String {
    let host = host.trim();
    let name = match host.rsplit_once(':') {
        // An IPv6 address contains colons itself, and stands in brackets if a port follows.
        Some((name, port)) if port.bytes().all(|b| b.is_ascii_digit()) && !name.ends_with(':') => name,
        _ => host,
    };
    name.trim_end_matches('.').to_ascii_lowercase()
}

impl Hosts {
    /// Returns the two names.
    ///
    /// # Errors
    /// Returns a message when the names are equal or not host names.
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

/// Returns the address of the office's pages on a server that devices reach at `url`.
pub fn of_the_pages(hosts: Option<&Hosts>, url: &str) -> String {
    let url = url.trim_end_matches('/');
    let Some((hosts, (scheme, rest))) = hosts.zip(url.split_once("://")) else { return url.to_owned() };
    let name = plain(rest.split('/').next().unwrap_or_default());
    let port = rest.get(name.len()..).unwrap_or_default();
    format!("{scheme}://{}{port}", hosts.office)
}
