//! The packed form in a real browser, in one program: it is built and linked once.

mod access;
mod ask;
mod desk;
mod drag;
mod hostile;
mod keep;
mod lot;
mod names;
mod path;
mod print;
mod room;
mod shapes;
mod size;
mod touch;
