# plyscribe_page(TARGET FOLDER): the review page's files as data of the target.
#
# The modules of FOLDER are joined into one script, in the order below, each without its import
# lines and the word export; their names must therefore differ across modules. So the same script
# serves the program's own server and a page that is opened from disk, where a browser would refuse
# to load modules. The hashes of script and style go into the page's Content-Security-Policy.
include(${CMAKE_SOURCE_DIR}/cmake/embed.cmake)

# A module may use those before it.
set(PAGE_MODULES notation rules lesson store saving dom pieces board roll overview queue outline card
    changes recording keys main)

function(plyscribe_page target folder)
  set(script ${CMAKE_CURRENT_BINARY_DIR}/page.js)
  set(modules ${PAGE_MODULES})
  list(TRANSFORM modules PREPEND ${folder}/)
  list(TRANSFORM modules APPEND .js)
  set(join ${CMAKE_CURRENT_FUNCTION_LIST_DIR}/join.cmake)
  string(JOIN "|" joined ${modules})
  add_custom_command(
    OUTPUT ${script}
    COMMAND ${CMAKE_COMMAND} -D MODULES=${joined} -D OUT=${script} -P ${join}
    DEPENDS ${modules} ${join}
    COMMENT "Joining the page's modules"
    VERBATIM)
  plyscribe_embed(${target} review_script ${script})
  plyscribe_embed(${target} review_style ${folder}/style.css)
  plyscribe_embed(${target} review_page ${folder}/index.html)
endfunction()
