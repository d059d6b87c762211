# SPDX-License-Identifier: GPL-3.0-or-later
# Every folder that something is installed into, made before anything is: install rules run in the order in which they are read.
set(folders ${CMAKE_INSTALL_BINDIR} lib/gatherwright
  ${CMAKE_INSTALL_INCLUDEDIR} ${CMAKE_INSTALL_LIBDIR}/cmake/gatherwright ${CMAKE_INSTALL_LIBDIR}/pkgconfig
  ${CMAKE_INSTALL_DOCDIR} ${CMAKE_INSTALL_MANDIR}/man1 ${CMAKE_INSTALL_DATADIR}/bash-completion/completions
  ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d ${CMAKE_INSTALL_DATADIR}/zsh/site-functions ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions
  ${CMAKE_INSTALL_DATADIR}/applications ${CMAKE_INSTALL_DATADIR}/icons/hicolor/scalable/apps)
install(CODE "set(FOLDERS \"${folders}\")")
install(SCRIPT ${CMAKE_CURRENT_LIST_DIR}/make_folders.cmake)
