//! The demonstration on a local network: the machine's own address there, and a certificate made for this run.

use std::net::{IpAddr, UdpSocket};
use std::path::{Path, PathBuf};
use std::process::Command;

use farsiding_host::private_file;

use crate::DemoError;

/// The address of this machine on a network, with a certificate that nobody else vouches for.
#[derive(Debug)]
pub struct Network {
    address: IpAddr,
    certificate: PathBuf,
    key: PathBuf,
}

impl Network {
    /// Finds the machine's address and makes a certificate for it in `folder`.
    ///
    /// # Errors
    /// When the machine is on no network, or the disk's.
    pub fn here(folder: &Path) -> Result<Network, DemoError> {
        let refuse = |why: &str| DemoError::Scenario { place: "--network".to_owned(), why: why.to_owned() };
        // Nothing is sent: connecting a datagram socket only chooses the address that would be used.
        let chosen = UdpSocket::bind("0.0.0.0:0").and_then(|socket| {
            socket.connect("192.0.2.1:9")?;
            socket.local_addr()
        });
        let address = chosen.map_err(|_| refuse("this machine is on no network"))?.ip();
        if address.is_loopback() || address.is_unspecified() {
            return Err(refuse("this machine is on no network"));
        }
        let made = rcgen::generate_simple_self_signed(vec![address.to_string()])
            .map_err(|error| refuse(&error.to_string()))?;
        let (certificate, key) = (folder.join("network.pem"), folder.join("network.key"));
        private_file::write_new(&certificate, made.cert.pem().as_bytes())?;
        private_file::write_new(&key, made.signing_key.serialize_pem().as_bytes())?;
        Ok(Network { address, certificate, key })
    }

    /// Returns where the server is reached, given its port.
    pub fn url(&self, port: u16) -> String {
        match self.address {
            IpAddr::V4(address) => format!("https://{address}:{port}"),
            IpAddr::V6(address) => format!("https://[{address}]:{port}"),
        }
    }

    /// Tells a `farsiding serve` to listen on the network.
    pub fn serves(&self, command: &mut Command, port: u16) {
        command.args(["--listen", &format!("{}:{port}", self.address), "--url", &self.url(port)]);
        command.arg("--cert").arg(&self.certificate).arg("--key").arg(&self.key);
    }
}
