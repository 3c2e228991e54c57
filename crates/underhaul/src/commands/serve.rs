//! `serve`: the workbench in a browser, from this machine alone.

use std::io;
use std::net::{IpAddr, Ipv4Addr, SocketAddr};
use std::path::{Path, PathBuf};

use clap::Args;
use store::{NewProject, Store, StoreError};
use workbench::App;

use super::demo;
use crate::failure::{Complaint, Failure, Outcome};
use crate::print::Page;

const AFTER: &str = "\
Examples:
  underhaul serve
  underhaul serve --store job.designs --listen 127.0.0.1:8080

Exit codes:
  0  stopped by hand (Ctrl-C)
  2  the address is taken or not of this machine, or the store cannot be used";

/// Port on which the workbench listens first.
const PORT: u16 = 7380;

/// Serves the workbench to a browser on this machine.
///
/// Designs are kept in one file, the store; a new one begins with the demo designs. Nothing is fetched from elsewhere. Stop
/// it with Ctrl-C: every saved revision is on disk already.
#[derive(Debug, Args)]
#[command(after_help = AFTER)]
pub(crate) struct Serve {
    /// Address and port; port 0 takes any free one.
    #[arg(long, value_name = "ADDR", default_value_t = SocketAddr::new(IpAddr::V4(Ipv4Addr::LOCALHOST), PORT))]
    listen: SocketAddr,
    /// File of the designs; without it one in the user's data folder.
    #[arg(long, value_name = "FILE")]
    store: Option<PathBuf>,
}

impl Serve {
    /// Serves until it is stopped.
    pub(crate) fn run(&self, page: &mut Page<'_>) -> Result<Outcome, Failure> {
        serve(page, self.listen, self.store.as_deref(), false)?;
        Ok(Outcome::Done)
    }
}

/// Serves as without a command: on any port when the usual one is taken.
pub(super) fn serve_anywhere(page: &mut Page<'_>) -> Result<(), Failure> {
    let usual = SocketAddr::new(IpAddr::V4(Ipv4Addr::LOCALHOST), PORT);
    serve(page, usual, None, true)
}

fn serve(
    page: &mut Page<'_>,
    listen: SocketAddr,
    file: Option<&Path>,
    any_port: bool,
) -> Result<(), Failure> {
    if !listen.ip().is_loopback() {
        let message = format!("{} is an address that others reach", listen.ip());
        let complaint = Complaint::new("not_loopback", message)
            .about(listen.to_string())
            .hint("listen on 127.0.0.1 or [::1]: without accounts nobody else is let in");
        return Err(complaint.into());
    }
    let path = file.map_or_else(usual_store, |f| Ok(f.to_path_buf()))?;
    let new = !path.exists();
    let mut store = Store::open(&path).map_err(|e| refused(&path, &e))?;
    if new {
        add_demos(&mut store).map_err(|e| refused(&path, &e))?;
    }
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build();
    let runtime = runtime.map_err(|e| not_served(listen, &e))?;
    runtime.block_on(async {
        let mut bound = workbench::bind(listen).await;
        if any_port && bound.as_ref().is_err_and(|e| e.kind() == io::ErrorKind::AddrInUse) {
            bound = workbench::bind(SocketAddr::new(listen.ip(), 0)).await;
        }
        let server = bound.map_err(|e| not_served(listen, &e))?;
        let told = tell(page, server.address, &path);
        Failure::unless_closed(told, Outcome::Done)?;
        let stop = async {
            // Without a handler for Ctrl-C the program ends with it all the same.
            let _ = tokio::signal::ctrl_c().await;
        };
        server.run(App::new(store), stop).await.map_err(|e| not_served(listen, &e))
    })
}

fn tell(page: &mut Page<'_>, address: SocketAddr, path: &Path) -> io::Result<()> {
    page.gap()?;
    page.line(&format!("workbench: http://{address}/"))?;
    page.quiet(2, &format!("designs are kept in {}; stop with Ctrl-C", path.display()))?;
    page.stream().flush()
}

/// The demo designs, for a store that is new.
fn add_demos(store: &mut Store) -> Result<(), StoreError> {
    let at = workbench::now();
    for text in [demo::LANE, demo::BURSTING, demo::FAILING, demo::EMBEDDED] {
        let reading = project::read_design("demo", text, &project::no_files);
        let id = store.create(&NewProject { text, files: &[], who: "demo", at })?;
        if let Ok(reading) = reading {
            let verdict = assess::judge_design(&reading.design).verdict.sentence;
            store.set_verdict(id, 1, &verdict)?;
        }
    }
    Ok(())
}

/// A file in the folder that the system has for a user's data.
fn usual_store() -> Result<PathBuf, Failure> {
    let folder = |name: &str| std::env::var_os(name).filter(|v| !v.is_empty()).map(PathBuf::from);
    let data = folder("XDG_DATA_HOME")
        .or_else(|| folder("LOCALAPPDATA"))
        .or_else(|| folder("HOME").map(|home| home.join(".local").join("share")));
    let Some(data) = data else {
        let complaint = Complaint::new("no_data_folder", "no folder for a user's data is known")
            .hint("name the file of the designs: --store FILE");
        return Err(complaint.into());
    };
    let folder = data.join("underhaul");
    std::fs::create_dir_all(&folder).map_err(|e| {
        let message = format!("the folder {} cannot be made: {e}", folder.display());
        Failure::from(
            Complaint::new("no_data_folder", message).hint("name another file: --store FILE"),
        )
    })?;
    Ok(folder.join("designs.store"))
}

/// A store that cannot be used.
pub(super) fn refused(path: &Path, error: &StoreError) -> Failure {
    let name = path.display().to_string();
    Complaint::new(error.code(), format!("{name}: {error}")).about(name).hint(error.hint()).into()
}

fn not_served(address: SocketAddr, error: &io::Error) -> Failure {
    let complaint = match error.kind() {
        io::ErrorKind::AddrInUse => {
            Complaint::new("address_in_use", format!("another program listens on {address}"))
                .hint("stop it, or take another port: --listen 127.0.0.1:0 takes any free one")
        }
        io::ErrorKind::AddrNotAvailable => {
            Complaint::new("no_such_address", format!("{address} is no address of this machine"))
        }
        io::ErrorKind::PermissionDenied => {
            Complaint::new("port_not_allowed", format!("{address} may not be used by this user"))
                .hint("take a port from 1024 on")
        }
        _ => Complaint::new("not_served", format!("{address}: {error}")),
    };
    complaint.about(address.to_string()).into()
}
