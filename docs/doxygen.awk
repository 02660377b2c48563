# Plain comments of a header as Doxygen takes them: what stands before the include guard is about the
# file, what stands on lines of its own is about what follows, what stands behind code is about that.
# Nothing in them is a command; what is set in by three blanks or more is an example.
function text(t) {
  gsub(/[\\@&<>#%$]/, "\\\\&", t)
  return t
}
function opened() { if (!inside) { print "/**"; inside = 1 } }
function closed() { if (inside) { if (code) print "@endverbatim"; code = 0; print " */"; inside = 0 } }
# A line of a comment, without its slashes.
function line(t) {
  opened()
  if (t ~ /^   / && !code) { print "@verbatim"; code = 1 }
  if (code && t !~ /^   / && t != "") { print "@endverbatim"; code = 0 }
  print code ? t : text(t)
}
FNR == 1 { guard = 0; if ($0 ~ /^\/\//) { opened(); print "@file" } }
/^#ifndef/ { guard = 1 }
/^ *\/\// {
  t = $0
  sub(/^ *\/\//, "", t)
  line(t)
  next
}
{ closed() }
/; *\/\/ / || /[,}] *\/\/ / {
  at = match($0, / *\/\/ /)
  if ($0 !~ /namespace/) {
    print substr($0, 1, at - 1) "  ///< " text(substr($0, at + RLENGTH))
    next
  }
}
{ print }
