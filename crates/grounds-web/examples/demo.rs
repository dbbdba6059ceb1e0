//! Serves the demo, as `grounds serve --demo` does: `cargo run --example demo -- [ADDRESS [FOLDER]]`.

use grounds_web::{Config, LISTEN, ServeError, serve};

fn main() -> Result<(), ServeError> {
    let mut arguments = std::env::args().skip(1);
    let listen = arguments.next().unwrap_or_else(|| LISTEN.to_owned());
    serve(Config {
        listen,
        data: arguments.next().map(Into::into),
        demo: true,
        phones: None,
    })
}
