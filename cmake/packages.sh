# need PACKAGE...: installs those of the Debian packages that are missing, as root or through sudo.
# Meant to be sourced.
need() {
  local missing=() package
  for package in "$@"; do
    [[ $(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null) == installed ]] ||
      missing+=("$package")
  done
  [[ ${#missing[@]} -eq 0 ]] && return
  echo "Installing: ${missing[*]}"
  local root=()
  if [[ $EUID -ne 0 ]]; then
    command -v sudo >/dev/null || { echo "expected root or sudo, to install ${missing[*]}" >&2; return 1; }
    root=(sudo)
  fi
  "${root[@]}" apt-get update -qq &&
    "${root[@]}" env DEBIAN_FRONTEND=noninteractive \
      apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
}

# What the program itself is built from.
need_to_build() {
  need g++ cmake ninja-build pkg-config libre2-dev libicu-dev nlohmann-json3-dev libcli11-dev \
       libfmt-dev libpugixml-dev libcpp-httplib-dev
}
