"""Whether a window can open here, found out before Qt is loaded: Qt aborts where it cannot.

Qt blames one library whatever is missing; loading its platform plugin by hand names the right one.
"""

import ctypes
import importlib.util
import os
import sys
from pathlib import Path

DEBIAN_LIBRARIES = (
    "libegl1 libgl1 libxkbcommon-x11-0 libxcb-cursor0 libxcb-icccm4 libxcb-keysyms1 libxcb-image0 "
    "libxcb-render-util0 libxcb-shape0 libxcb-xinerama0 libdbus-1-3 libfontconfig1"
)
"""What Qt needs on a bare Debian or Ubuntu server; the README lists the same."""


def window_needs() -> str | None:
    """One line on what the window needs to open here, or ``None`` where it can open."""
    if not sys.platform.startswith("linux"):
        return None
    platform = os.environ.get("QT_QPA_PLATFORM", "").split(":")[0]
    wayland, x11 = os.environ.get("WAYLAND_DISPLAY"), os.environ.get("DISPLAY")
    if not platform and not wayland and not x11:
        return "the window needs a display, and there is none (neither DISPLAY nor WAYLAND_DISPLAY is set)."
    missing = _missing_library(platform or ("wayland" if wayland and not x11 else "xcb"))
    if missing:
        return f"the window needs a system library: {missing}. On Debian or Ubuntu: apt install {DEBIAN_LIBRARIES}"
    if platform in ("", "xcb") and x11 and not wayland and not _x11_answers():
        return f"the window needs a display, and {x11} does not answer."
    return None


def _missing_library(platform: str) -> str | None:
    """What the loader says is missing for Qt's platform plugin, or ``None``."""
    package = importlib.util.find_spec("PySide6")
    if package is None or not package.submodule_search_locations:
        return "PySide6 is not installed"
    qt = Path(package.submodule_search_locations[0]) / "Qt"
    for library in (qt / "lib" / "libQt6Gui.so.6", qt / "plugins" / "platforms" / f"libq{platform}.so"):
        if not library.exists():
            continue
        try:
            ctypes.CDLL(str(library))
        except OSError as error:
            return str(error)
    return None


def _x11_answers() -> bool:
    """Whether the X server of ``DISPLAY`` takes a connection; true where that cannot be tried."""
    try:
        xcb = ctypes.CDLL("libxcb.so.1")
    except OSError:
        return True
    xcb.xcb_connect.restype = ctypes.c_void_p
    connection = ctypes.c_void_p(xcb.xcb_connect(None, None))
    answers = not xcb.xcb_connection_has_error(connection)
    xcb.xcb_disconnect(connection)
    return answers
