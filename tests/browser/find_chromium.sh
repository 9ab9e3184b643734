# Sourced by run.sh: find a Chromium, or get one, and leave its path in GUIDEGEN_CHROMIUM.
find_chromium() {
    # The shell has no windows, menus and buttons to draw, and takes half the time.
    for name in chromium-headless-shell chromium chromium-browser google-chrome google-chrome-stable microsoft-edge; do
        if command -v "$name" >/dev/null 2>&1; then
            command -v "$name"
            return 0
        fi
    done
    for app in "Google Chrome" Chromium "Microsoft Edge"; do
        if [ -x "/Applications/$app.app/Contents/MacOS/$app" ]; then
            echo "/Applications/$app.app/Contents/MacOS/$app"
            return 0
        fi
    done
    return 1
}

# Another run may be installing just now: then this one waits for it, ten minutes at most.
apt_install() {
    apt-get update -qq >/dev/null || true
    DEBIAN_FRONTEND=noninteractive apt-get -o DPkg::Lock::Timeout=600 install -y -qq "$@" >/dev/null || true
}

if [ -z "${GUIDEGEN_CHROMIUM:-}" ]; then
    GUIDEGEN_CHROMIUM=$(find_chromium || true)
    if [ -z "$GUIDEGEN_CHROMIUM" ] && "$venv/bin/python" -m playwright install chromium >/dev/null 2>&1; then
        GUIDEGEN_CHROMIUM=playwright
    fi
    if [ -z "$GUIDEGEN_CHROMIUM" ] && [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null 2>&1; then
        echo "Installing Chromium with apt-get"
        apt_install chromium-headless-shell fonts-dejavu-core fonts-liberation poppler-utils
        GUIDEGEN_CHROMIUM=$(find_chromium || true)
        if [ -z "$GUIDEGEN_CHROMIUM" ]; then
            apt_install chromium fonts-dejavu-core fonts-liberation poppler-utils
            GUIDEGEN_CHROMIUM=$(find_chromium || true)
        fi
    fi
    if [ -z "$GUIDEGEN_CHROMIUM" ]; then
        echo "No Chromium, Chrome or Edge was found and none could be installed." >&2
        echo "Install one of them, or set GUIDEGEN_CHROMIUM to its path, and run this again." >&2
        exit 2
    fi
fi
if ! command -v pdftotext >/dev/null 2>&1 && [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null 2>&1; then
    apt_install poppler-utils
fi
if ! command -v pdftotext >/dev/null 2>&1; then
    echo "pdftotext was not found; install poppler (Debian: poppler-utils) for the tests of printing." >&2
    exit 2
fi
export GUIDEGEN_CHROMIUM
